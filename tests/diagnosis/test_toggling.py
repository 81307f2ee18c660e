"""Which look is to be sent over and over for a scope."""

import functools

from helpers.scripts import SINGLE, look, plan_of
from termprobe.diagnosis.dictionary import fault_dictionary
from termprobe.diagnosis.toggling import toggled_by

PLAN = plan_of(
    [
        look("blank", [{"text": "A"}]),
        look("stars", [{"pattern": "solid", "with": "*"}]),
        look("columns", [{"pattern": "column-tags"}]),
    ]
)


@functools.cache
def known_faults():
    return fault_dictionary(SINGLE, PLAN)


def test_data_lines_must_stand_at_both_levels():
    """Bit 3 is 1 all over a screen of stars, and 0 and 1 in turn on the tags of columns."""
    assert toggled_by("bank-1-data/stuck/3/0", PLAN, known_faults()) == "columns"


def test_it_shows_the_fault():
    assert toggled_by("decoder/dead/down", PLAN, known_faults()) is None
    assert toggled_by("no/such/fault", PLAN, known_faults()) is None
    assert toggled_by("bank-1-data/stuck/3/0", PLAN, None) is None
