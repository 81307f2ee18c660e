"""What is said of whole rows and columns, and when nothing is."""

import pytest

from termprobe.diagnosis.picture_lines import (
    Comparison,
    blank_lines,
    moved_lines,
    repeated_lines,
    shifted_in_rows,
    swapped_lines,
)
from termprobe.terminal.screen import Screen

EXPECTED = ("ABCD", "EFGH", "IJKL", "    ")


def compared(*rows):
    return Comparison(Screen(EXPECTED, None), Screen(rows, None))


@pytest.mark.parametrize(
    ("rule", "rows", "said"),
    [
        (blank_lines, ("    ", "EFGH", "    ", "    "), "rows 0 and 2 are blank"),
        (blank_lines, ("ABC ", "EFG ", "IJK ", "    "), "column 3 is blank"),
        (swapped_lines, ("EFGH", "ABCD", "IJKL", "    "), "rows 0 and 1 swapped"),
        (swapped_lines, ("BADC", "FEHG", "JILK", "    "), "columns 0 and 1, 2 and 3 swapped"),
        (moved_lines, ("    ", "ABCD", "EFGH", "IJKL"), "everything moved one row lower"),
        (moved_lines, ("EFGH", "IJKL", "    ", "    "), "everything moved one row higher"),
        (moved_lines, ("ABCD", "EFGH", "    ", "IJKL"), "row 2 moved one row lower"),
        (repeated_lines, ("ABCD", "ABCD", "ABCD", "    "), "row 1 shows row 0, one more likewise"),
        (repeated_lines, ("ABCB", "EFGF", "IJKJ", "    "), "column 3 shows column 1"),
        (
            shifted_in_rows,
            ("ABCD", "  EF", "IJKL", "    "),
            "row 1 moved two columns further right",
        ),
        (shifted_in_rows, ("ABCD", "FGH ", "IJKL", "    "), "row 1 moved one column further left"),
    ],
)
def test_a_rule_says_what_fits_and_nothing_of_a_single_wrong_character(rule, rows, said):
    assert rule(compared(*rows)) == said
    assert rule(compared("ABXD", "EYGH", "IJKL", "    ")) == ""


def test_rows_and_columns_that_differ_are_known_by_their_numbers():
    rows, columns = compared("ABCD", "EXGH", "IJKL", "    ").axes
    assert (rows.wrong, columns.wrong) == ((1,), (1,))
