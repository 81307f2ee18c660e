"""Two faults at once: no single one explains them, and the pair is named."""

import functools

import pytest

from helpers.scripts import SINGLE, look, plan_of
from helpers.virtual_builders import Reader, records_of
from termprobe.diagnosis.diagnose import diagnose
from termprobe.diagnosis.dictionary import fault_dictionary
from termprobe.verdict.judge import judge

PLAN = plan_of(
    [
        look("stars", [{"pattern": "solid", "with": "*"}]),
        look("rows", [{"pattern": "row-tags"}]),
        look("up", [{"command": "down", "times": 3}, {"command": "up"}, {"text": "B"}]),
        look("left", [{"text": "ABC"}, {"command": "left"}, {"text": "-"}]),
    ]
)


@functools.cache
def known_faults():
    return fault_dictionary(SINGLE, PLAN)


@pytest.mark.parametrize(
    "names",
    [
        ("bank-1-data/stuck/3/0", "decoder/dead/up"),
        ("decoder/dead/left", "bank-0-data/swapped/1-3"),
    ],
)
def test_the_pair_is_named_and_nothing_is_explained_by_one(names):
    records = records_of(SINGLE, PLAN, names, Reader())
    found = diagnose(SINGLE, PLAN, records, judge(PLAN, records), known_faults())
    assert not found.is_explained
    first = found.pairs[0]
    assert first.is_explained and set(first.faults) == set(names)
    assert set(first.blocks) == {name.split("/")[0] for name in names}


def test_one_fault_is_no_pair():
    records = records_of(SINGLE, PLAN, ["decoder/dead/up"], Reader())
    found = diagnose(SINGLE, PLAN, records, judge(PLAN, records), known_faults())
    assert found.is_explained and found.pairs == ()
