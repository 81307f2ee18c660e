"""Which rows of a screen are shown where not all have room: those named, and those written on.

Rows between them are left out, each gap told in a row of its own. Pure.
"""

import itertools
import re
from collections.abc import Collection, Iterator, Sequence, Set

from termprobe.terminal.screen import Screen

_NUMBERED = re.compile(r"\brows? (\d+(?:(?:, | and | to |-)(?:row )?\d+)*)")
_RANGE = re.compile(r"(\d+)(?: to |-)(\d+)|(\d+)")
_FIRST = re.compile(r"\b(?:top|first row|corners)\b", re.I)
_CAPITALS = re.compile(r"\b[A-Z]+\b")
_LAST = re.compile(r"\b(?:bottom|last row|corners)\b", re.I)

MOST_OF_A_WORD = 3
"""A word of capitals on more rows than this says nothing of where to look."""


def named_rows(question: str, screen: Screen) -> set[int]:
    """Return the rows that a question speaks of: `row 4`, `rows 3 to 5`, the top, below NEW."""
    height = len(screen.rows)
    found = {
        row
        for numbers in _NUMBERED.findall(question)
        for parts in _RANGE.findall(numbers)
        for row in _range_of(*parts)
    }
    if _FIRST.search(question):
        found.add(0)
    if _LAST.search(question):
        found.add(height - 1)
    for word in _CAPITALS.findall(question):
        found |= _rows_with(word, screen)
    return {row for row in found if row < height}


def _rows_with(word: str, screen: Screen) -> set[int]:
    """Return the rows on which `word` stands; none where it stands on too many to mean these."""
    found = {row for row, text in enumerate(screen.rows) if word in text}
    return found if len(found) <= MOST_OF_A_WORD else set()


def _range_of(first: str, last: str, single: str) -> range:
    if single:
        return range(int(single), int(single) + 1)
    return range(int(first), int(last) + 1)


def shown_rows(
    screens: Sequence[Screen], room: int, question: str, compared: Set[int] = frozenset()
) -> tuple[int, ...]:
    """Return the rows to be shown in `room` rows, from the top; each gap takes one of these.

    `screens` are those that are shown in turn, the expected one first. Rows that are named, written
    on, or with the cursor come first, and then those near them. Where not even those named have
    room, or none is named, it is the unbroken part of the first screen on which most is written.
    Where rows are to be `compared`, these come before all others: as many as have room.
    """
    height = len(screens[0].rows)
    if room >= height:
        return tuple(range(height))
    named = named_rows(question, screens[0])
    written: set[int] = set().union(*map(_written, screens))
    for wanted in (named | written | compared, named | compared, _with_room(compared, room)):
        if wanted and _rows_taken(wanted) <= room:
            return tuple(sorted(_filled(wanted, written, height, room)))
    return _fullest(screens[0], room)


def _with_room(rows: Set[int], room: int) -> set[int]:
    """Return as many of the first of `rows` as have room."""
    found: set[int] = set()
    for row in sorted(rows):
        if _rows_taken(found | {row}) > room:
            break
        found.add(row)
    return found


def _written(screen: Screen) -> set[int]:
    """Return the rows on which something is written, or the cursor stands."""
    found = {row for row, text in enumerate(screen.rows) if text.strip(" ")}
    if screen.cursor and 0 <= screen.cursor[0] < len(screen.rows):
        found.add(screen.cursor[0])
    return found


def _filled(wanted: Set[int], written: Set[int], height: int, room: int) -> set[int]:
    """Return `wanted` with all other rows that have room: written ones first, and nearer ones."""
    found = set(wanted)

    def rank(row: int) -> tuple[bool, int, int]:
        return row not in written, min(abs(row - other) for other in wanted), row

    for row in sorted(set(range(height)) - found, key=rank):
        if _rows_taken(found | {row}) <= room:
            found.add(row)
    return found


def _rows_taken(rows: Collection[int]) -> int:
    """Return how many rows of the console `rows` take, and the gaps between them."""
    return len(rows) + sum(is_gap for is_gap, _ in parts_of(rows))


def parts_of(rows: Collection[int]) -> Iterator[tuple[bool, range]]:
    """Yield, from the first of `rows` to the last, (whether it is left out, its rows) by parts."""
    shown = set(rows)
    reach = range(min(shown), max(shown) + 1)
    for is_shown, its in itertools.groupby(reach, key=shown.__contains__):
        part = list(its)
        yield not is_shown, range(part[0], part[-1] + 1)


def _fullest(screen: Screen, room: int) -> tuple[int, ...]:
    """Return the unbroken rows on which most is written; gaps around them need no room."""
    room = max(room, 1)
    written = [len(text) - text.count(" ") for text in screen.rows]
    if screen.cursor and 0 <= screen.cursor[0] < len(written):
        written[screen.cursor[0]] += 1
    starts = range(len(written) - room + 1)
    first = max(starts, key=lambda start: sum(written[start : start + room]))
    return tuple(range(first, first + room))


def words_of_gap(screen: Screen, part: range) -> str:
    """Return what a part that is left out is: `rows 8-16 are blank`."""
    last = part[-1]
    which = f"rows {part[0]}-{last} are"
    if len(part) == 1:
        which = f"row {last} is"
    if any(screen.rows[row].strip(" ") for row in part):
        return f"{which} not shown"
    return f"{which} blank"
