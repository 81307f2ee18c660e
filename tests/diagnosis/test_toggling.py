"""Which look is to be sent over and over for a scope."""

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
KNOWN = fault_dictionary(SINGLE, PLAN)


def test_data_lines_must_stand_at_both_levels():
    """Bit 3 is 1 all over a screen of stars, and 0 and 1 in turn on the tags of columns."""
    assert toggled_by("bank-1-data/stuck/3/0", PLAN, KNOWN) == "columns"


def test_it_shows_the_fault():
    assert toggled_by("decoder/dead/down", PLAN, KNOWN) is None
    assert toggled_by("no/such/fault", PLAN, KNOWN) is None
    assert toggled_by("bank-1-data/stuck/3/0", PLAN, None) is None
