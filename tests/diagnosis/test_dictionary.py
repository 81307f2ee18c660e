"""The fault dictionary of a plan: every listed fault, in as many processes as there are."""

import pytest

from helpers.scripts import ECMA, SINGLE, look, plan_of
from termprobe.board.faults.catalogue import catalogue
from termprobe.diagnosis.dictionary import fault_dictionary
from termprobe.diagnosis.evident import evident_in
from termprobe.diagnosis.playing import chains_of, perform
from termprobe.errors import UsageError

PLAN = plan_of([look("word", [{"text": "HELLO"}]), look("rows", [{"pattern": "row-tags"}])])


def test_every_listed_fault_has_its_performance():
    told = []
    dictionary = fault_dictionary(SINGLE, PLAN, lambda done, count: told.append((done, count)))
    faults = catalogue(SINGLE)
    assert tuple(dictionary.faults) == tuple(faults)
    assert dictionary.looks == ("word", "rows") and dictionary.untrusted == 0
    for name in ("bank-0-data/stuck/0/1", "decoder/dead/clear", "baud/ratio/2"):
        assert dictionary.faults[name] == perform(SINGLE, chains_of(PLAN), faults[name])
    evident = set(dictionary.evident())
    assert evident == dictionary.stuck_bits.union(evident_in(dictionary.faults.values()))
    assert told[-1] == (len(faults), len(faults)) and told == sorted(told)


def test_a_look_that_a_good_board_fails_is_not_to_be_trusted():
    wrong = look("wrong", [{"text": "HELLO"}])
    plan = plan_of([wrong, look("rows", [{"pattern": "row-tags"}])])
    first, second = plan.steps
    broken = plan_of([look("wrong", [{"text": "HALLO"}])]).steps[0]
    steps = (broken.__class__(**{**vars(first), "expected": broken.expected}), second)
    plan = plan.__class__(**{**vars(plan), "steps": steps})
    assert fault_dictionary(SINGLE, plan).untrusted == 0b01


def test_without_a_circuit_there_is_none():
    with pytest.raises(UsageError, match="needs a profile with a section circuit"):
        fault_dictionary(ECMA, PLAN)
