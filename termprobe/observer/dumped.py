"""What a dump command prints, read: the rows of a screen, and its cursor where it tells that.

The first form is the rows alone, one line each. In the second form a form feed stands behind the
last of them, and then a line `cursor: ROW,COLUMN`, both counted from 0.
"""

import re
from typing import NamedTuple

from termprobe.errors import ObserverError
from termprobe.notation import visible

FORM_FEED = "\f"
_CURSOR = re.compile(r"cursor: *(\d{1,4}) *, *(\d{1,4})")


class Dumped(NamedTuple):
    """A screen as it was dumped."""

    rows: tuple[str, ...]
    """Blanks at their ends removed."""
    cursor: tuple[int, int] | None = None
    """Row and column, which a faulty board may have outside its screen; None where it is not told.
    """


def read_dump(text: str, rows: int, columns: int, called: str) -> Dumped:
    """Return what `text` says of a screen of so many rows and columns.

    Raises ObserverError, in which the program is `called` so, where it says nothing of such one.
    """
    of_rows, feed, more = text.partition(FORM_FEED)
    found = _rows_of(of_rows, rows, columns, called)
    if not feed:
        return Dumped(found)
    return Dumped(found, _cursor_of(more.strip(), called))


def _cursor_of(line: str, called: str) -> tuple[int, int]:
    match = _CURSOR.fullmatch(line)
    if match is None:
        shown = visible(line)[:40]
        words = "must print `cursor: ROW,COLUMN` behind the form feed"
        raise ObserverError(f"{called} {words}, not {shown!r}")
    return int(match[1]), int(match[2])


def _rows_of(text: str, rows: int, columns: int, called: str) -> tuple[str, ...]:
    """Return the rows in `text`, blanks at their ends removed.

    Raises ObserverError where they cannot be a screen of that size. The line feed behind the last
    row may be left out, so a last row that is blank may look like the end of the one before.
    """
    lines = [line.rstrip("\r").rstrip(" ") for line in text.split("\n")]
    while len(lines) > rows and not lines[-1]:
        lines.pop()
    if len(lines) != rows:
        count = len(lines) - (not lines[-1])
        raise ObserverError(f"{called} must print {rows} rows, not {count}")
    for number, line in enumerate(lines):
        if len(line) > columns:
            what = f"rows of at most {columns} characters, not {len(line)} in row {number}"
            raise ObserverError(f"{called} must print {what}")
        if not all(_is_plain(character) for character in line):
            shown = visible(line)[:40]
            raise ObserverError(
                f"{called} must print rows of plain text, not {shown!r} in row {number}"
            )
    return tuple(lines)


def _is_plain(character: str) -> bool:
    return ord(character) >= 0x20 and not 0x7F <= ord(character) <= 0x9F
