"""What somebody wrote down of a screen: places of it, with what stands there. Pure."""

import re
from collections.abc import Iterable
from typing import NamedTuple

from termprobe.findings import quoted
from termprobe.terminal.screen import Screen

_SEEN = re.compile(r"([0-9]{1,3})(?:\s*,\s*([0-9]{1,3}))?(?:\s+(.*))?")
_EXAMPLES = "5,10 HEMMO, or 5 and the whole row, in quotes where blanks count"


class Seen(NamedTuple):
    """Text seen from a cell on."""

    row: int
    column: int
    text: str


def seen_at(screen: Screen, written: str) -> Seen:
    """Return what `5,10 HEMMO` says, or `5 HEMMO` of a whole row, blank to its end.

    Raises ValueError with what must be written.
    """
    match = _SEEN.fullmatch(written)
    if match is None:
        raise ValueError(
            f"what is seen must be a row, a column and a text ({_EXAMPLES}), not {quoted(written)}"
        )
    row, column, text = int(match[1]), match[2], _unquoted(match[3] or "")
    columns = len(screen.rows[0])
    if row >= len(screen.rows) or int(column or 0) >= columns:
        raise ValueError(
            f"rows must be 0 to {len(screen.rows) - 1} and columns 0 to {columns - 1}, "
            f"not {quoted(written)}"
        )
    if column is None:
        return Seen(row, 0, text.ljust(columns)[:columns])
    if not text or int(column) + len(text) > columns:
        raise ValueError(f"what is seen must have room in its row, not {quoted(written)}")
    return Seen(row, int(column), text)


def with_seen(screen: Screen, seen: Iterable[Seen]) -> tuple[str, ...]:
    """Return the rows of a screen as they were seen: where nothing is told, as they must be."""
    rows = list(screen.rows)
    for row, column, text in seen:
        rows[row] = rows[row][:column] + text + rows[row][column + len(text) :]
    return tuple(rows)


def _unquoted(text: str) -> str:
    if len(text) > 1 and text[0] == text[-1] == '"':
        return text[1:-1]
    return text
