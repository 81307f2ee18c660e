"""What faults of bits make of codes, and the parts of a screen on which they may act."""

from hypothesis import given
from hypothesis import strategies as st

from helpers.bit_faults import COLUMNS, ROWS
from termprobe.verdict.changes import Change, EveryOther, changes, parts

cells = st.tuples(st.integers(0, ROWS - 1), st.integers(0, COLUMNS - 1))


def test_each_change_is_tried_once():
    assert len(set(changes())) == len(changes()) == 1 + 14 + 3 * 21


def test_each_change_makes_of_a_code_what_it_says():
    assert set(Change("blank").table) == {0x20}
    assert Change("stuck", (3,), 1).table[0x31] == 0x39
    assert Change("stuck", (0,), 0).table[0x41] == 0x40
    assert Change("exchanged", (0, 1)).table[0x41] == 0x42
    assert Change("bridged", (0, 1), 0).table[0x41] == 0x40
    assert Change("bridged", (0, 1), 1).table[0x41] == 0x43


def test_bridged_bits_that_agree_arrive_as_they_are():
    for level in (0, 1):
        table = Change("bridged", (0, 1), level).table
        assert (table[0x40], table[0x43]) == (0x40, 0x43)


@given(st.lists(cells, min_size=1, max_size=6, unique=True), st.booleans())
def test_each_part_but_those_by_parity_and_blanks_holds_the_cells_that_it_was_made_for(some, blank):
    for part in parts(some):
        may_leave_out = isinstance(part.area, EveryOther) or part.is_written_only
        inside = [part.holds(row, column, blank) for row, column in some]
        assert all(inside) or may_leave_out, part
