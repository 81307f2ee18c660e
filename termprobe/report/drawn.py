"""Screens as a page draws them, in as few characters as that takes. Pure."""

from collections.abc import Iterable

from markupsafe import Markup

from termprobe.report.facts.pictures import CellRun
from termprobe.report.text_screens import shown_cells


def drawn_row(row: str) -> Markup:
    """Return a row as the text of an element, one character in each cell.

    There nothing but `&` and `<` can act; quotes, of which a screen may be full, are not escaped.
    """
    return Markup(shown_cells(row).replace("&", "&amp;").replace("<", "&lt;"))


def drawn_path(stretches: Iterable[CellRun]) -> str:
    """Return a path along the cells that differ: a column is 1 wide and a row 1 high."""
    parts: list[str] = []
    at_row, at_column = -1, 0
    for row, column, length in stretches:
        if row == at_row:
            parts.append(f"m{column - at_column} 0h{length}")
        else:
            parts.append(f"M{column} {row}h{length}")
        at_row, at_column = row, column + length
    return "".join(parts)
