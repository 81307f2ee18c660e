"""Two faults at once: no single one explains them, and the pair is named."""

import functools

import pytest

from helpers.scripts import SINGLE, look, plan_of
from helpers.virtual_builders import Reader, records_of
from termprobe.diagnosis.diagnose import all_accounts, case_of, diagnose
from termprobe.diagnosis.dictionary import fault_dictionary
from termprobe.diagnosis.residual import fits_what_is_left
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
        ("bank-1-data/stuck/0/1", "glyph-address/stuck/3/1"),
    ],
)
def test_the_pair_is_named_and_nothing_is_explained_by_one(names):
    records = records_of(SINGLE, PLAN, names, Reader())
    found = diagnose(SINGLE, PLAN, records, judge(PLAN, records), known_faults())
    assert not found.is_explained
    first = found.pairs[0]
    assert first.is_explained and set(first.faults) == set(names)
    assert set(first.blocks) == {name.split("/")[0] for name in names}


def test_what_one_fault_leaves_open_is_what_the_other_one_touches():
    names = ("bank-1-data/stuck/3/0", "decoder/dead/up")
    records = records_of(SINGLE, PLAN, names, Reader())
    case = case_of(SINGLE, PLAN, records, judge(PLAN, records))
    by_name = {one.cause.name: one for one in all_accounts(case, case.of_nothing(), known_faults())}
    likeness = fits_what_is_left(case, by_name[names[0]], known_faults())
    assert likeness(by_name[names[1]]) > 0 == likeness(by_name["decoder/dead/left"])


def test_one_fault_is_no_pair():
    records = records_of(SINGLE, PLAN, ["decoder/dead/up"], Reader())
    found = diagnose(SINGLE, PLAN, records, judge(PLAN, records), known_faults())
    assert found.is_explained and found.pairs == ()
