"""Marks on the expected screen: which cells the builder sees differ, and what stands there where it was typed. Pure.

A marked screen is a mapping (row, column) -> the character seen, or UNKNOWN where only "differs" is known.
"""

from termprobe.terminal.screen import UNKNOWN


def toggled(marks, cells):
    """Return `marks` with all of `cells` marked, or none of them where all were marked before."""
    cells = tuple(cells)
    if cells and all(cell in marks for cell in cells):
        return {cell: seen for cell, seen in marks.items() if cell not in cells}
    return {**{cell: UNKNOWN for cell in cells}, **marks}


def row_cells(screen, row):
    """Return the cells of one row."""
    return tuple((row, column) for column in range(len(screen.rows[row])))


def column_cells(screen, column):
    """Return the cells of one column."""
    return tuple((row, column) for row in range(len(screen.rows)))


def typed(marks, screen, cell, text):
    """Return `marks` with `text` seen from `cell` on; a character that is as expected takes the mark away."""
    row, column = cell
    found = dict(marks)
    for place, character in enumerate(text[: len(screen.rows[row]) - column], column):
        found.pop((row, place), None)
        if screen.rows[row][place] != character:
            found[row, place] = character
    return found


def seen_rows(screen, marks):
    """Return the rows as the builder sees them, UNKNOWN where a cell is only marked; None where nothing is marked."""
    if not marks:
        return None
    return tuple(
        "".join(marks.get((row, column), character) for column, character in enumerate(text))
        for row, text in enumerate(screen.rows)
    )


def in_words(marks):
    """Return the marked cells in words, row by row: `row 2 columns 5-7; row 3 column 0`."""
    parts = []
    for row in sorted({row for row, _ in marks}):
        ranges = _ranges(sorted(column for where, column in marks if where == row))
        shown = ", ".join(
            f"{first}-{last}" if last > first else f"{first}" for first, last in ranges
        )
        parts.append(
            f"row {row} column{'s' if len(ranges) > 1 or ranges[0][0] != ranges[0][1] else ''} {shown}"
        )
    return "; ".join(parts)


def _ranges(numbers):
    found = []
    for number in numbers:
        if found and number == found[-1][1] + 1:
            found[-1][1] = number
        else:
            found.append([number, number])
    return [tuple(pair) for pair in found]


def first_cell(screen):
    """Return where marking begins: the first cell that is not blank, or the top left one."""
    return next(
        (
            (row, len(text) - len(text.lstrip(" ")))
            for row, text in enumerate(screen.rows)
            if text.strip(" ")
        ),
        (0, 0),
    )
