"""Rows of a screen that differ, as lines of plain text: as they must be, and as they were seen."""

from collections.abc import Iterator

from termprobe.notation import visible
from termprobe.report.facts.numbers import counted
from termprobe.report.facts.pictures import ScreenFacts

WINDOW = 60
"""Columns of a row that are shown."""
BEFORE = 8
"""So many of them stand before the first that differs, where the row is wider than that."""
ROWS_SHOWN = 3
NOT_PLAIN = "?"
"""Stands for a character that is not plain text."""


def screen_lines(screen: ScreenFacts, indent: str) -> list[str]:
    """Return the first rows that differ, each with a mark below every cell that does."""
    if screen.seen is None or not screen.differing:
        return []
    rows = list(dict.fromkeys(stretch.row for stretch in screen.differing))
    lines = [line for row in rows[:ROWS_SHOWN] for line in _row(screen, row)]
    if len(rows) > ROWS_SHOWN:
        lines.append(f"and in {counted(len(rows) - ROWS_SHOWN, 'more row')}")
    return [f"{indent}{line}".rstrip() for line in lines]


def _row(screen: ScreenFacts, row: int) -> Iterator[str]:
    assert screen.seen is not None
    first = min(column for at, column, _ in screen.differing if at == row)
    start = 0
    if screen.columns > WINDOW:
        start = max(0, min(first - BEFORE, screen.columns - WINDOW))
    part = slice(start, start + WINDOW)
    yield f"row {row}, from column {start}"
    yield f"  must be |{shown_cells(screen.expected[row][part])}|"
    yield f"  seen    |{shown_cells(screen.seen[row][part])}|"
    yield f"           {screen.marked_rows[row][part]}"


def shown_cells(text: str) -> str:
    """Return text of a screen, one character in each cell whatever it holds."""
    if visible(text) == text:
        return text
    return "".join(map(_shown_cell, text))


def _shown_cell(character: str) -> str:
    return character if visible(character) == character else NOT_PLAIN
