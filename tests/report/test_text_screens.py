"""Rows that differ, with a mark below each cell."""

import dataclasses

from termprobe.report.facts.pictures import CellRun, ScreenFacts, fitted
from termprobe.report.text_screens import screen_lines

ROWS = fitted(["x" * 60 + "HELLO"], 5, 80)
SEEN = fitted(["x" * 60 + "H\x1bLLO"], 5, 80)
SCREEN = ScreenFacts(80, ROWS, None, SEEN, None, (CellRun(0, 61, 1),))


def test_the_part_of_a_wide_row_that_differs_is_shown_with_a_mark():
    lines = screen_lines(SCREEN, "  ")
    assert lines[0] == "  row 0, from column 20" and max(map(len, lines)) <= 80
    assert lines[1].index("E") == lines[2].index("?") == lines[3].index("^")


def test_of_many_rows_the_first_are_shown():
    runs = tuple(CellRun(row, 0, 3) for row in range(5))
    lines = screen_lines(dataclasses.replace(SCREEN, differing=runs), "")
    assert lines[-1] == "and in 2 more rows" and len(lines) == 13


def test_nothing_is_drawn_where_nobody_told_what_was_seen():
    assert screen_lines(dataclasses.replace(SCREEN, seen=None), "") == []
