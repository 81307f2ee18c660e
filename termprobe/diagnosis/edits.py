"""How many characters were inserted, left out or changed between two strings."""

from collections.abc import Sequence


def distance(first: Sequence[object], second: Sequence[object]) -> int:
    """Return the fewest such edits that make `second` of `first` (Levenshtein's distance)."""
    before = list(range(len(second) + 1))
    for row, one in enumerate(first, 1):
        current = [row]
        for column, other in enumerate(second, 1):
            changed = before[column - 1] + (one != other)
            current.append(min(changed, before[column] + 1, current[-1] + 1))
        before = current
    return before[-1]
