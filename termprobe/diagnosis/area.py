"""Where on a screen something was seen, in a few words.

    everywhere              odd rows     even columns     top half     right half
    row 5     rows 2-9      column 40    columns 0-15     odd rows, left half

Rows and columns count from 0, so that row 0 is the first of the even ones. Two of them joined by a
comma mean the cells that are in both.
"""

import re
from collections.abc import Callable
from typing import NamedTuple

from termprobe.errors import UsageError

GRAMMAR = (
    "everywhere; odd or even rows or columns; top, bottom, left or right half; row N, rows N-M, "
    'column N, columns N-M, from 0; or two of them joined by a comma, as "odd rows, left half"'
)
PARITY = re.compile(r"(odd|even) (row|column)s?")
NUMBERED = re.compile(r"(row|column)s? (\d+)(?: ?- ?(\d+))?")
HALF = re.compile(r"(top|bottom|left|right) half")


class Region(NamedTuple):
    """Cells of a screen: those in one of the rows and one of the columns."""

    rows: frozenset[int]
    columns: frozenset[int]

    def common(self, other: "Region") -> "Region":
        """Return the cells that are in both."""
        return Region(self.rows & other.rows, self.columns & other.columns)


def area_of(words: str, rows: int, columns: int) -> Region:
    """Return the Region that `words` name on a screen of that size; raise UsageError."""
    whole = Region(frozenset(range(rows)), frozenset(range(columns)))
    found = whole
    for phrase in words.lower().split(","):
        part = _part(" ".join(phrase.split()), whole)
        if part is not None:
            found = found.common(part)
        if part is None or not found.rows or not found.columns:
            size = f"on a screen of {rows} rows and {columns} columns"
            raise UsageError(f'--where must be {GRAMMAR}, {size}, not "{words}"')
    return found


def _part(phrase: str, whole: Region) -> Region | None:
    """Return the cells that one phrase names, None where it is none."""
    if phrase in ("everywhere", "all rows", "all columns"):
        return whole
    for pattern, read in _READERS:
        words = pattern.fullmatch(phrase)
        if words is not None:
            return read(words, whole)
    return None


def _along(axis: str, whole: Region, holds: Callable[[int], bool]) -> Region:
    """Return the rows, or the columns, of which `holds` is true."""
    if axis == "row":
        return whole._replace(rows=frozenset(filter(holds, whole.rows)))
    return whole._replace(columns=frozenset(filter(holds, whole.columns)))


def _parity(words: re.Match[str], whole: Region) -> Region:
    rest = int(words[1] == "odd")
    return _along(words[2], whole, lambda number: number % 2 == rest)


def _numbered(words: re.Match[str], whole: Region) -> Region:
    first = int(words[2])
    last = int(words[3] or first)
    return _along(words[1], whole, lambda number: first <= number <= last)


def _half(words: re.Match[str], whole: Region) -> Region:
    axis, middle = "row", len(whole.rows) // 2
    if words[1] in ("left", "right"):
        axis, middle = "column", len(whole.columns) // 2
    if words[1] in ("top", "left"):
        return _along(axis, whole, lambda number: number < middle)
    return _along(axis, whole, lambda number: number >= middle)


_READERS: tuple[tuple[re.Pattern[str], Callable[[re.Match[str], Region], Region]], ...] = (
    (PARITY, _parity),
    (NUMBERED, _numbered),
    (HALF, _half),
)
