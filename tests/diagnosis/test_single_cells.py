"""Single cells as causes: which are tried one by one, and which look alike."""

from helpers.scripts import SINGLE, look, plan_of
from helpers.virtual_builders import Eyes, Reader, records_of
from termprobe.diagnosis.causes import ALL_CELLS
from termprobe.diagnosis.diagnose import case_of
from termprobe.diagnosis.single_cells import cells_by_looks, cells_in_question
from termprobe.verdict.judge import judge

PLAN = plan_of(
    [
        look("stars", [{"pattern": "solid", "with": "*"}]),
        look("u", [{"pattern": "solid", "with": "U"}]),
    ]
)


def case(name, observer):
    records = records_of(SINGLE, PLAN, [name], observer)
    return case_of(SINGLE, PLAN, records, judge(PLAN, records))


def test_where_one_cell_differs_all_of_its_bits_are_tried():
    names = [one.name for one in cells_in_question(case("cell/stuck/5-7-1/0", Reader()))]
    assert len(names) == 14 and "cell/stuck/5-7-1/0" in names
    assert all(name.startswith("cell/stuck/5-7-") for name in names)


def test_where_many_cells_differ_none_is():
    assert cells_in_question(case("bank-0-data/stuck/1/0", Reader())) == ()


def test_without_marks_bits_that_the_same_looks_show_are_one_cause():
    found = list(cells_by_looks(case("cell/stuck/5-7-1/0", Eyes(1))))
    shown = {frozenset(one.fits): one.cause for one in found}
    stars = shown[frozenset({"stars"})]
    assert "cell/stuck/5-7-1/0" in {stars.name, *stars.alike} and "would look alike" in stars.title
    # * is 2Ah and U is 55h: each bit of a cell is shown by one of the two at each level. The last
    # cell stays blank, and shows each bit at one level only.
    assert sum(1 + len(one.cause.alike) for one in found) == 2 * 7 * (24 * 80 - 1) + 7
    assert sum(one.cause.weight for one in found) < ALL_CELLS
