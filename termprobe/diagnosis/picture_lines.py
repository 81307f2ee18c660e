"""Rows and columns of a wrong screen against those of the right one: blank, moved, swapped.

Each rule returns what it says of a screen, or nothing where it does not fit. Pure.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from termprobe.diagnosis.lines_in_words import counted, lines_in_words, number_in_words
from termprobe.terminal.screen import Difference, Screen, differences

EMPTY = " "
MOST_PAIRS = 3
"""So many lines that are swapped are told."""


@dataclass(frozen=True)
class Comparison:
    """The right screen and a wrong one of the same size."""

    expected: Screen
    seen: Screen

    @property
    def rows(self) -> int:
        """How many there are."""
        return len(self.expected.rows)

    @property
    def columns(self) -> int:
        """How many there are."""
        return len(self.expected.rows[0])

    @cached_property
    def cells(self) -> tuple[Difference, ...]:
        """Those that differ."""
        return differences(self.expected.rows, self.seen.rows)

    @cached_property
    def axes(self) -> tuple["Direction", ...]:
        """The screens by rows, and by columns."""
        expected, seen = self.expected.rows, self.seen.rows
        return Direction("row", expected, seen), Direction(
            "column", _turned(expected), _turned(seen)
        )


@dataclass(frozen=True)
class Direction:
    """The lines of both screens in one direction."""

    name: str
    expected: tuple[str, ...]
    seen: tuple[str, ...]

    @cached_property
    def wrong(self) -> tuple[int, ...]:
        """Numbers of the lines that differ."""
        pairs = enumerate(zip(self.expected, self.seen, strict=True))
        return tuple(number for number, (wanted, seen) in pairs if wanted != seen)

    def words(self, numbers: Sequence[int]) -> str:
        """Return what these lines are called."""
        return lines_in_words(self.name, numbers, len(self.expected))


def _turned(rows: Sequence[str]) -> tuple[str, ...]:
    return tuple("".join(column) for column in zip(*rows, strict=True))


def blank_lines(pair: Comparison) -> str:
    """Return what is said where whole rows or columns are blank."""
    for axis in pair.axes:
        if all(not axis.seen[number].strip(EMPTY) for number in axis.wrong):
            be = "is" if len(axis.wrong) == 1 else "are"
            return f"{axis.words(axis.wrong)} {be} blank"
    return ""


def swapped_lines(pair: Comparison) -> str:
    """Return what is said where rows or columns stand in each other's place."""
    for axis in pair.axes:
        pairs = list(_swaps(axis))
        if len(axis.wrong) == 2 * len(pairs):
            told = ", ".join(f"{one} and {other}" for one, other in pairs[:MOST_PAIRS])
            more = " ..." * (len(pairs) > MOST_PAIRS)
            return f"{axis.name}s {told}{more} swapped"
    return ""


def _swaps(axis: Direction) -> Iterator[tuple[int, int]]:
    """Yield the pairs of lines that stand in each other's place."""
    left = list(axis.wrong)
    while left:
        one = left.pop(0)
        for other in left:
            is_there = axis.seen[one] == axis.expected[other]
            if is_there and axis.seen[other] == axis.expected[one]:
                left.remove(other)
                yield one, other
                break


WAYS_MOVED = {"row": ("higher", "lower"), "column": ("further left", "further right")}


def moved_lines(pair: Comparison) -> str:
    """Return what is said where all that is wrong stands by some rows or columns elsewhere."""
    for axis in pair.axes:
        for distance in range(1, len(axis.expected)):
            for shift in (-distance, distance):
                moved = _moved_by(axis, shift)
                if moved:
                    far = f"{counted(distance, axis.name)} {WAYS_MOVED[axis.name][shift > 0]}"
                    return f"{_what_moved(axis, moved, shift)} moved {far}"
    return ""


def _what_moved(axis: Direction, moved: Sequence[int], shift: int) -> str:
    """Return what the lines are called: everything, where nothing else is left on the screen."""
    written = [number for number, line in enumerate(axis.expected) if line.strip(EMPTY)]
    kept = [number for number in written if 0 <= number + shift < len(axis.expected)]
    if set(moved) >= set(kept):
        return "everything"
    return axis.words(moved)


def _moved_by(axis: Direction, shift: int) -> list[int]:
    """Return the lines that stand `shift` lines further on, where that is all that is wrong."""
    shown = [number for number in axis.wrong if axis.seen[number].strip(EMPTY)]
    sources = [number - shift for number in shown]
    if not set(sources) <= set(axis.wrong):
        return []
    pairs = zip(shown, sources, strict=True)
    if all(axis.seen[number] == axis.expected[source] for number, source in pairs):
        return sources
    return []


def repeated_lines(pair: Comparison) -> str:
    """Return what is said where rows or columns show what belongs on others."""
    for axis in pair.axes:
        sources = [_source(axis, number) for number in axis.wrong]
        if all(source is not None for source in sources):
            first = f"{axis.name} {axis.wrong[0]} shows {axis.name} {sources[0]}"
            more = len(axis.wrong) - 1
            return first + f", {number_in_words(more)} more likewise" * (more > 0)
    return ""


def _source(axis: Direction, number: int) -> int | None:
    """Return the line that belongs where `number` shows it; None where there is none."""
    seen = axis.seen[number]
    if not seen.strip(EMPTY) or seen not in axis.expected:
        return None
    return axis.expected.index(seen)


def shifted_in_rows(pair: Comparison) -> str:
    """Return what is said where what stands in some rows stands further left or right."""
    axis = pair.axes[0]
    for distance in range(1, pair.columns):
        for shift in (-distance, distance):
            if all(_is_shifted(axis, row, shift) for row in axis.wrong):
                way = WAYS_MOVED["column"][shift > 0]
                return f"{axis.words(axis.wrong)} moved {counted(distance, 'column')} {way}"
    return ""


def _is_shifted(axis: Direction, row: int, shift: int) -> bool:
    wanted, seen = axis.expected[row], axis.seen[row]
    width = len(wanted)
    moved = (EMPTY * shift + wanted)[:width] if shift > 0 else wanted[-shift:].ljust(width)
    return moved == seen
