"""What the tube shows at one moment. Rows and columns count from 0."""

from dataclasses import dataclass, field

UNKNOWN = "\ufffd"
"""Stands in rows seen for a character that was marked as differing, but not told."""


@dataclass(frozen=True)
class Screen:
    """A screen and the cursor on it."""

    rows: tuple[str, ...]
    """One string for each row, each as long as the screen is wide."""
    cursor: tuple[int, int] | None
    """Row and column; None where the observer cannot tell."""
    renditions: dict[tuple[int, int], str] = field(default_factory=dict)
    """For cells that are not plain: letters of `b` bold, `u` underline, `k` blink, `r` reverse, in this order."""
    bells: int = 0
    replies: bytes = b""
    """All that was sent back since the screen was made."""


def differences(expected, seen):
    """Return ((row, column, expected character, seen character), ...) for each cell of rows `seen` that is not as `expected`.

    Blanks at the end of a seen row may be left out; missing rows count as blank. Cells beyond the expected screen differ
    only where they are not blank.
    """
    found = []
    width = max([len(row) for row in (*expected, *seen)], default=0)
    for row in range(max(len(expected), len(seen))):
        wanted = (expected[row] if row < len(expected) else "").ljust(width)
        got = (seen[row] if row < len(seen) else "").ljust(width)
        if wanted != got:
            found.extend(
                (row, column, wanted[column], got[column])
                for column in range(width)
                if wanted[column] != got[column]
            )
    return tuple(found)
