"""When a fault is named, what is asked before, and that none is named that is not told apart."""

import pytest

from helpers.dictionaries import of_acceptance
from helpers.scripts import SINGLE, acceptance
from helpers.virtual_builders import Eyes, Reader, looks_to_play, records_of
from termprobe.board.faults.catalogue import fault
from termprobe.diagnosis.naming import LEAST_SURE, NOTHING_NAMED, UNTIL_SURE, name_cause
from termprobe.journal.known_fault import KnownFault
from termprobe.verdict.judge import judge

STUCK = "bank-0-data/stuck/2/1"
HALF_SEEN = "bank-0-address/bridged/1-2/low"
"""Two looks do not tell it from another fault."""
NEARLY_SURE = "decoder/dead/clear"
"""That erasing is done in the place of it is rarer, and shows the same at first."""


@pytest.fixture(scope="module")
def dictionary():
    return of_acceptance()


def after(count, name, dictionary, observer=None, more=(), is_until_sure=False):
    """Return what is said after the first `count` looks on a board with the fault `name`."""
    plan = acceptance()
    faults = [fault(SINGLE, name)] if name else []
    looks = looks_to_play(plan)[:count]
    records = [*records_of(SINGLE, plan, faults, observer or Reader(), looks), *more]
    verdict = judge(plan, records)
    return name_cause(SINGLE, plan, records, verdict, dictionary, is_until_sure)


def test_a_stuck_line_is_named_after_two_looks_with_what_to_probe(dictionary):
    cause = after(2, STUCK, dictionary).cause
    assert cause.fault == STUCK and cause.probability >= LEAST_SURE
    assert cause.explains == ("chart-and-codes", "solid-2a")
    assert "line 2" in cause.probe.signal and cause.probe.step in acceptance().index


def test_after_one_look_another_is_asked_that_must_differ_as_well(dictionary):
    found = after(1, STUCK, dictionary)
    assert found.cause is None
    number = dictionary.looks.index(found.next)
    assert dictionary.faults[STUCK].in_order[number].picture


def test_faults_that_another_look_tells_apart_are_not_named_but_told_apart(dictionary):
    found = after(2, HALF_SEEN, dictionary)
    assert found.cause is None and found.next is not None
    plan = acceptance()
    two = [look.id for look in looks_to_play(plan)[:2]]
    looks = [plan.step(look) for look in (*two, found.next)]
    records = records_of(SINGLE, plan, [fault(SINGLE, HALF_SEEN)], Reader(), looks)
    cause = name_cause(SINGLE, plan, records, judge(plan, records), dictionary).cause
    assert cause.fault == HALF_SEEN


def test_yes_and_no_of_two_looks_name_nothing(dictionary):
    assert after(2, STUCK, dictionary, Eyes(1)).cause is None


def test_a_good_board_and_one_with_a_known_fault_name_nothing(dictionary):
    assert after(3, "", dictionary) == NOTHING_NAMED
    assert after(3, STUCK, dictionary, more=[KnownFault(STUCK)]) == NOTHING_NAMED


def test_looks_that_the_fault_changes_for_the_most_part_are_told(dictionary):
    hidden = after(2, "glyph-address/stuck/0/1", dictionary).cause.hidden
    assert "solid-2a" in hidden
    cause = after(4, "clear/bank-1-skipped", dictionary).cause
    assert set(cause.hidden) < set(dictionary.looks)


def test_where_nobody_is_asked_none_is_named_as_long_as_a_look_may_tell_more(dictionary):
    """Two looks leave it 91 %: that is named to a person, and else asked on."""
    assert LEAST_SURE < after(2, NEARLY_SURE, dictionary).cause.probability < UNTIL_SURE
    found = after(2, NEARLY_SURE, dictionary, is_until_sure=True)
    assert found.cause is None and found.next is not None
