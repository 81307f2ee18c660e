"""What the tube shows at one moment. Rows and columns count from 0."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from termprobe.profile.variants import in_ascii
from termprobe.terminal.dots import Misdrawn

UNKNOWN_CHARACTER = "\ufffd"
"""Stands in rows seen for a character that was marked as differing, but not told; in rows expected
for one of which nothing is known."""


@dataclass(frozen=True)
class Screen:
    """A screen and the cursor on it."""

    rows: tuple[str, ...]
    """One string for each row, each as long as the screen is wide."""
    cursor: tuple[int, int] | None
    """Row and column; None where the observer cannot tell."""
    renditions: dict[tuple[int, int], str] = field(default_factory=dict)
    """For cells that are not plain: letters of `b` bold, `d` dim, `u` underline, `k` blink and `r`
    reverse, in this order."""
    bells: int = 0
    replies: bytes = b""
    """All that was sent back since the screen was made."""
    misdrawn: tuple[Misdrawn, ...] = ()
    """What on it is drawn with other dots than a good board draws it."""
    variant: str = ""
    """Id of the national variant of ISO 646 in which its codes are shown; empty for ASCII."""
    printed: bytes = b""
    """The text that was sent to the printer port since the screen was made."""


class Difference(NamedTuple):
    """One cell that is not as expected."""

    row: int
    column: int
    expected: str
    seen: str
    """The character seen, or UNKNOWN_CHARACTER."""


def differences(expected: Sequence[str], seen: Sequence[str]) -> tuple[Difference, ...]:
    """Return a Difference for each cell of rows `seen` that is not as `expected`.

    Blanks at the end of a seen row may be left out; missing rows count as blank. Cells beyond the
    expected screen differ only where they are not blank. Where nothing is known of the character
    expected, none differs.
    """
    found = []
    width = max([len(row) for row in (*expected, *seen)], default=0)
    for row in range(max(len(expected), len(seen))):
        wanted, got = _row(expected, row, width), _row(seen, row, width)
        if wanted != got:
            found += [
                Difference(row, column, wanted[column], got[column])
                for column in range(width)
                if wanted[column] not in (got[column], UNKNOWN_CHARACTER)
            ]
    return tuple(found)


def ascii_of(text: str, variant: str) -> str:
    """Return the ASCII characters whose codes show `text` in a national variant.

    UNKNOWN_CHARACTER stands for what no code shows.
    """
    return in_ascii(text, variant)


def _row(rows: Sequence[str], index: int, width: int) -> str:
    """Return one of the rows, which may be missing, filled up with blanks."""
    if index >= len(rows):
        return " " * width
    return rows[index].ljust(width)
