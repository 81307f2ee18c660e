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


def distance_within(first: bytes, second: bytes, most: int) -> int:
    """Return the same, or `most` where there are as many or more. It takes far less time."""
    if first == second:
        return 0
    if abs(len(first) - len(second)) >= most:
        return most
    before = [min(column, most) for column in range(len(second) + 1)]
    for row, one in enumerate(first, 1):
        start, stop = max(row - most, 0) + 1, min(row + most, len(second)) + 1
        current = [most] * (len(second) + 1)
        current[0] = min(row, most)
        for column in range(start, stop):
            changed = before[column - 1] + (one != second[column - 1])
            current[column] = min(changed, before[column] + 1, current[column - 1] + 1, most)
        if min(current) >= most:
            return most
        before = current
    return before[-1]
