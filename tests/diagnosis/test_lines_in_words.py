"""Rows, columns and cells in words."""

import pytest

from termprobe.diagnosis.lines_in_words import (
    counted,
    joined,
    lines_in_words,
    times,
    where_in_words,
)
from termprobe.terminal.screen import Difference


@pytest.mark.parametrize(
    ("numbers", "words"),
    [
        ([3], "row 3"),
        ([5, 3], "rows 3 and 5"),
        ([3, 4], "rows 3 and 4"),
        ([3, 4, 5], "rows 3 to 5"),
        ([1, 7, 9], "rows 1, 7 and 9"),
        (range(24), "all rows"),
        (range(1, 24, 2), "odd rows"),
        (range(0, 24, 2), "even rows"),
        (range(0, 24, 4), "every 4th row from 0"),
        (range(4, 16, 2), "every second row from 4 to 14"),
        ([1, 2, 3, 7, 9], "five rows"),
    ],
)
def test_lines_are_named_in_as_few_words_as_may_be(numbers, words):
    assert lines_in_words("row", numbers, 24) == words


def test_numbers_read_as_people_write_them():
    assert [counted(1, "row"), counted(3, "row"), counted(40, "row")] == [
        "one row",
        "three rows",
        "40 rows",
    ]
    assert [times(1), times(2), times(5)] == ["once", "twice", "five times"]
    assert joined(["A"]) == "A" and joined(["A", "B", "C"]) == "A, B and C"


def cells(*indices):
    return [Difference(row, column, "A", "B") for row, column in indices]


def test_where_cells_are_is_said_by_the_lines_that_hold_them():
    assert where_in_words(cells((2, 7)), 24, 80) == "at row 2, column 7"
    assert where_in_words(cells((2, 7), (2, 9)), 24, 80) == "in row 2, in columns 7 and 9"
    everywhere = cells(*[(row, column) for row in range(24) for column in range(80)])
    assert where_in_words(everywhere, 24, 80) == ""
    odd = cells(*[(row, column) for row in range(1, 24, 2) for column in range(80)])
    assert where_in_words(odd, 24, 80) == "in odd rows"
