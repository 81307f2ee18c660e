"""Marks on the expected screen: which cells the builder sees differ, and what stands there.

A marked screen is a mapping (row, column) -> the character seen, or UNKNOWN_CHARACTER where only
"differs" is known. Pure.
"""

from collections.abc import Iterable, Mapping

from termprobe.terminal.screen import UNKNOWN_CHARACTER, Screen

CellIndex = tuple[int, int]
"""Row and column, both from 0."""
Marks = Mapping[CellIndex, str]
Range = tuple[int, int]
"""First and last."""


def toggled(marks: Marks, cells: Iterable[CellIndex]) -> Marks:
    """Return `marks` with all of `cells` marked, or none of them where all were marked before."""
    cells = tuple(cells)
    if cells and all(cell in marks for cell in cells):
        return {cell: seen for cell, seen in marks.items() if cell not in cells}
    return {**dict.fromkeys(cells, UNKNOWN_CHARACTER), **marks}


def row_cells(screen: Screen, row: int) -> tuple[CellIndex, ...]:
    """Return the cells of one row."""
    return tuple((row, column) for column in range(len(screen.rows[row])))


def column_cells(screen: Screen, column: int) -> tuple[CellIndex, ...]:
    """Return the cells of one column."""
    return tuple((row, column) for row in range(len(screen.rows)))


def typed(marks: Marks, screen: Screen, cell: CellIndex, text: str) -> Marks:
    """Return `marks` with `text` seen from `cell` on.

    A character that is as expected takes the mark away; what goes beyond the row is left out.
    """
    row, first = cell
    expected = screen.rows[row]
    found = dict(marks)
    for column, character in enumerate(text[: len(expected) - first], first):
        found.pop((row, column), None)
        if expected[column] != character:
            found[row, column] = character
    return found


def seen_rows(screen: Screen, marks: Marks) -> tuple[str, ...] | None:
    """Return the rows as the builder sees them, or None where nothing is marked.

    UNKNOWN_CHARACTER stands where a cell is only marked.
    """
    if not marks:
        return None
    return tuple(_seen_row(row, text, marks) for row, text in enumerate(screen.rows))


def _seen_row(row: int, text: str, marks: Marks) -> str:
    return "".join(marks.get((row, column), character) for column, character in enumerate(text))


def marks_in_words(marks: Iterable[CellIndex]) -> str:
    """Return the marked cells in words, row by row: `row 2 columns 5-7; row 3 column 0`."""
    columns: dict[int, list[int]] = {}
    for row, column in sorted(marks):
        columns.setdefault(row, []).append(column)
    return "; ".join(f"row {row} {_columns_in_words(found)}" for row, found in columns.items())


def _columns_in_words(columns: list[int]) -> str:
    shown = ", ".join(_range_in_words(first, last) for first, last in _ranges(columns))
    return f"column{'s' * (len(columns) > 1)} {shown}"


def _range_in_words(first: int, last: int) -> str:
    return f"{first}-{last}" if last > first else f"{first}"


def _ranges(numbers: Iterable[int]) -> list[Range]:
    """Return the unbroken ranges of ascending `numbers`."""
    found: list[Range] = []
    for number in numbers:
        if found and number == found[-1][1] + 1:
            found[-1] = (found[-1][0], number)
        else:
            found.append((number, number))
    return found


def first_cell(screen: Screen) -> CellIndex:
    """Return where marking begins: the first cell that is not blank, or the top left one."""
    for row, text in enumerate(screen.rows):
        if text.strip(" "):
            return row, len(text) - len(text.lstrip(" "))
    return 0, 0
