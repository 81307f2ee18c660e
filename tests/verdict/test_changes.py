"""What faults of bits make of codes, and the parts of a screen on which they may act."""

from hypothesis import given
from hypothesis import strategies as st

from helpers.bit_faults import COLUMNS, ROWS
from termprobe.verdict.changes import changes, parts, span

cells = st.tuples(st.integers(0, ROWS - 1), st.integers(0, COLUMNS - 1))


def test_each_change_is_what_it_says():
    tables = {change.text: change.table for change in changes()}
    assert len(tables) == 1 + 14 + 3 * 21
    assert tables["bit 3 arrives as 1"][0x31] == 0x39
    assert tables["bit 0 arrives as 0"][0x41] == 0x40
    assert tables["bits 0 and 1 arrive exchanged"][0x41] == 0x42
    assert tables["bits 0 and 1 both arrive as 0 unless both should be 1"][0x41] == 0x40
    assert tables["bits 0 and 1 both arrive as 1 unless both should be 0"][0x41] == 0x43


@given(st.lists(cells, min_size=1, max_size=6, unique=True), st.booleans())
def test_each_part_but_those_by_parity_and_blanks_holds_the_cells_that_it_was_made_for(some, blank):
    for part in parts(some):
        may_leave_out = "even" in part.where or "odd" in part.where or "blanks" in part.where
        inside = [part.holds(row, column, blank) for row, column in some]
        assert all(inside) or may_leave_out, part.where


def test_a_span_of_one_is_no_span():
    assert (span("row", 3, 3), span("row", 3, 5)) == ("row 3", "rows 3 to 5")
