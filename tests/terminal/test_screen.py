"""What differs between an expected screen and rows that were seen."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from termprobe.terminal.screen import UNKNOWN_CHARACTER, differences

EXPECTED = ("ABC ", "    ")


def test_equal_rows_differ_nowhere():
    assert differences(EXPECTED, EXPECTED) == ()


@pytest.mark.parametrize("seen", [("ABC",), ("ABC", ""), ("ABC", "", "", " "), ("ABC  ", "     ")])
def test_blanks_may_be_left_out_or_added(seen):
    assert differences(EXPECTED, seen) == ()


@pytest.mark.parametrize(
    ("seen", "found"),
    [
        (("AXC", ""), [(0, 1, "B", "X")]),
        (("AB",), [(0, 2, "C", " ")]),
        (("ABC", " Y"), [(1, 1, " ", "Y")]),
        (("ABC    Z",), [(0, 7, " ", "Z")]),
        (("ABC", "", "Q"), [(2, 0, " ", "Q")]),
        ((f"A{UNKNOWN_CHARACTER}C",), [(0, 1, "B", UNKNOWN_CHARACTER)]),
        ((), [(0, 0, "A", " "), (0, 1, "B", " "), (0, 2, "C", " ")]),
    ],
)
def test_each_cell_that_is_not_as_expected_is_told(seen, found):
    assert list(differences(EXPECTED, seen)) == found


def test_a_difference_says_what_it_is():
    (found,) = differences(("A",), ("B",))
    assert (found.row, found.column, found.expected, found.seen) == (0, 0, "A", "B")


ROWS = st.lists(st.text("AB ", max_size=5), max_size=4)


@given(ROWS, ROWS)
def test_differences_are_the_same_from_either_side(one, other):
    turned = [(row, column, b, a) for row, column, a, b in differences(other, one)]
    assert list(differences(one, other)) == turned
