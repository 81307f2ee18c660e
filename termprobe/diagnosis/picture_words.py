"""How a wrong screen differs from the right one, as one short sentence.

The sentence is made by rules from both screens alone: the first that fits says it. Pure.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from termprobe.diagnosis.lines_in_words import (
    cell_in_words,
    counted,
    joined,
    lines_in_words,
    number_in_words,
    times,
    where_in_words,
)
from termprobe.terminal.screen import Difference, Screen, differences
from termprobe.verdict.evidence import code_of_character

BLANK = " "
SMALL_LETTERS = 0x20
"""So many codes behind the capitals."""
MOST_EXAMPLES = 2
MOST_PAIRS = 3
HALF, NEARLY_ALL = range(40, 61), range(90, 100)
"""In hundredths: so many of the characters are every second one, and nearly every one."""


@dataclass(frozen=True)
class Pair:
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
    def axes(self) -> tuple["Axis", ...]:
        """The screens by rows, and by columns."""
        expected, seen = self.expected.rows, self.seen.rows
        return Axis("row", expected, seen), Axis("column", _turned(expected), _turned(seen))


@dataclass(frozen=True)
class Axis:
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


Rule = Callable[[Pair], str]
"""Returns a sentence, or nothing where it does not fit."""


def sentence_of(expected: Screen, seen: Screen) -> str:
    """Return how `seen` differs, in at most a dozen words or two; nothing where it does not."""
    pair = Pair(expected, seen)
    parts = [_of_cells(pair), _of_cursor(pair), _of_bell(pair)]
    return "; ".join(filter(None, parts))


def first_in_words(expected: Screen, seen: Screen) -> str:
    """Return what is seen in the first cell that differs; nothing where none does."""
    pair = Pair(expected, seen)
    if not pair.cells:
        return ""
    return _first(pair)


def _of_cells(pair: Pair) -> str:
    if not pair.cells:
        return ""
    return next(filter(None, (rule(pair) for rule in RULES)))


def _of_cursor(pair: Pair) -> str:
    wanted, seen = pair.expected.cursor, pair.seen.cursor
    if wanted is None or seen is None or wanted == seen:
        return ""
    return f"cursor at {cell_in_words(*seen)}"


def _of_bell(pair: Pair) -> str:
    wanted, heard = pair.expected.bells, pair.seen.bells
    if heard == wanted:
        return ""
    if not heard:
        return "the bell does not ring"
    return f"the bell rings {times(heard)}"


def _turned(rows: Sequence[str]) -> tuple[str, ...]:
    return tuple("".join(column) for column in zip(*rows, strict=True))


def _single_cell(pair: Pair) -> str:
    """One cell alone differs."""
    if len(pair.cells) > 1:
        return ""
    return _too_many(pair) or _missing(pair) or _exchanged(pair)


def _all_blank(pair: Pair) -> str:
    return "the screen is blank" * (not "".join(pair.seen.rows).strip(BLANK))


def _all_one_character(pair: Pair) -> str:
    first, *others = set("".join(pair.seen.rows))
    return f"{_named(first)} all over the screen" * (not others)


def _blank_lines(pair: Pair) -> str:
    """Whole rows or columns are blank."""
    for axis in pair.axes:
        if all(not axis.seen[number].strip(BLANK) for number in axis.wrong):
            be = "is" if len(axis.wrong) == 1 else "are"
            return f"{axis.words(axis.wrong)} {be} blank"
    return ""


def _swapped_lines(pair: Pair) -> str:
    for axis in pair.axes:
        pairs = list(_swaps(axis))
        if len(axis.wrong) == 2 * len(pairs):
            told = ", ".join(f"{one} and {other}" for one, other in pairs[:MOST_PAIRS])
            more = " ..." * (len(pairs) > MOST_PAIRS)
            return f"{axis.name}s {told}{more} swapped"
    return ""


def _swaps(axis: Axis) -> Iterator[tuple[int, int]]:
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


WAYS = {"row": ("higher", "lower"), "column": ("further left", "further right")}


def _moved_lines(pair: Pair) -> str:
    """Lines stand by some lines elsewhere."""
    for axis in pair.axes:
        for distance in range(1, len(axis.expected)):
            for shift in (-distance, distance):
                moved = _moved_by(axis, shift)
                if moved:
                    far = f"{counted(distance, axis.name)} {WAYS[axis.name][shift > 0]}"
                    return f"{_what_moved(axis, moved, shift)} moved {far}"
    return ""


def _what_moved(axis: Axis, moved: Sequence[int], shift: int) -> str:
    """Return what the lines are called: everything, where nothing else is left on the screen."""
    written = [number for number, line in enumerate(axis.expected) if line.strip(BLANK)]
    kept = [number for number in written if 0 <= number + shift < len(axis.expected)]
    if set(moved) >= set(kept):
        return "everything"
    return axis.words(moved)


def _moved_by(axis: Axis, shift: int) -> list[int]:
    """Return the lines that stand `shift` lines further on, where that is all that is wrong."""
    shown = [number for number in axis.wrong if axis.seen[number].strip(BLANK)]
    sources = [number - shift for number in shown]
    if not set(sources) <= set(axis.wrong):
        return []
    pairs = zip(shown, sources, strict=True)
    if all(axis.seen[number] == axis.expected[source] for number, source in pairs):
        return sources
    return []


def _repeated_lines(pair: Pair) -> str:
    """Lines show what belongs on others."""
    for axis in pair.axes:
        sources = [_source(axis, number) for number in axis.wrong]
        if all(source is not None for source in sources):
            first = f"{axis.name} {axis.wrong[0]} shows {axis.name} {sources[0]}"
            more = len(axis.wrong) - 1
            return first + f", {number_in_words(more)} more likewise" * (more > 0)
    return ""


def _source(axis: Axis, number: int) -> int | None:
    """Return the line that belongs where `number` shows it; None where there is none."""
    seen = axis.seen[number]
    if not seen.strip(BLANK) or seen not in axis.expected:
        return None
    return axis.expected.index(seen)


def _shifted_in_rows(pair: Pair) -> str:
    """What stands in some rows stands further left or right."""
    axis = pair.axes[0]
    for distance in range(1, pair.columns):
        for shift in (-distance, distance):
            if all(_is_shifted(axis, row, shift) for row in axis.wrong):
                way = WAYS["column"][shift > 0]
                return f"{axis.words(axis.wrong)} moved {counted(distance, 'column')} {way}"
    return ""


def _is_shifted(axis: Axis, row: int, shift: int) -> bool:
    wanted, seen = axis.expected[row], axis.seen[row]
    width = len(wanted)
    moved = (BLANK * shift + wanted)[:width] if shift > 0 else wanted[-shift:].ljust(width)
    return moved == seen


def _too_many(pair: Pair) -> str:
    """There are characters where all must be blank."""
    if any(cell.expected != BLANK for cell in pair.cells):
        return ""
    where = where_in_words(pair.cells, pair.rows, pair.columns)
    seen = {cell.seen for cell in pair.cells}
    if len(seen) == 1:
        often = f"{times(len(pair.cells))} " * (len(pair.cells) > 1)
        return f"{_named(seen.pop())} {often}too many {where}".rstrip()
    return f"{counted(len(pair.cells), 'character')} too many {where}".rstrip()


def _missing(pair: Pair) -> str:
    """Characters are blank that must not be."""
    if any(cell.seen != BLANK for cell in pair.cells):
        return ""
    where = where_in_words(pair.cells, pair.rows, pair.columns)
    return f"{_which(pair)} blank {where}".rstrip()


def _one_character(pair: Pair) -> str:
    """Another character stands, everywhere the same."""
    seen = {cell.seen for cell in pair.cells}
    if len(seen) > 1 or len(pair.cells) == 1:
        return ""
    where = where_in_words(pair.cells, pair.rows, pair.columns)
    return f"{_which(pair)} shown as {_named(seen.pop())} {where}".rstrip()


def _codes_off(pair: Pair) -> str:
    """All codes that differ are off by the same."""
    distances = {_distance(cell) for cell in pair.cells}
    distance = distances.pop()
    if distances or distance is None or len(pair.cells) == 1:
        return ""
    way = ("low", "high")[distance > 0]
    what = f"{counted(abs(distance), 'code')} too {way}"
    if abs(distance) == SMALL_LETTERS and _are_letters(pair):
        what = ("shown as capitals", "shown as small letters")[distance > 0]
    where = where_in_words(pair.cells, pair.rows, pair.columns)
    return f"{_which(pair)} {what} {where}".rstrip()


def _distance(cell: Difference) -> int | None:
    wanted, seen = code_of_character(cell.expected), code_of_character(cell.seen)
    if wanted is None or seen is None:
        return None
    return seen - wanted


def _are_letters(pair: Pair) -> bool:
    return all(cell.expected.isalpha() for cell in pair.cells)


def _exchanged(pair: Pair) -> str:
    """Each character is shown as another, always the same."""
    known: dict[str, str] = {}
    for cell in pair.cells:
        if known.setdefault(cell.expected, cell.seen) != cell.seen:
            return ""
    told = joined(f"{_named(wanted)} as {_named(seen)}" for wanted, seen in _examples(known))
    where = where_in_words(pair.cells, pair.rows, pair.columns)
    kinds = len(known)
    if kinds > MOST_EXAMPLES:
        told = f"{counted(kinds, 'character')} changed, such as {told}"
    return f"{told} {where}".rstrip()


def _examples(known: dict[str, str]) -> Iterator[tuple[str, str]]:
    """Yield what is told of the changes: letters first."""
    ranked = sorted(known.items(), key=lambda item: not item[0].isalnum())
    yield from ranked[:MOST_EXAMPLES]


def _otherwise(pair: Pair) -> str:
    told = f"{counted(len(pair.cells), 'cell')} differ"
    where = where_in_words(pair.cells, pair.rows, pair.columns)
    return f"{told} {where}".rstrip() + f", {_first(pair)}"


def _first(pair: Pair) -> str:
    first = pair.cells[0]
    return f"first {_named(first.seen)} at {cell_in_words(first.row, first.column)}"


def _which(pair: Pair) -> str:
    """Return which characters differ: every, every second, or some."""
    share = max(_share(axis) for axis in pair.axes)
    if share == 100 and len(pair.cells) > 1:
        return "every character"
    if share in HALF and len(pair.cells) > 2:
        return "every second character"
    if share in NEARLY_ALL:
        return "nearly every character"
    return counted(len(pair.cells), "character")


def _share(axis: Axis) -> int:
    """Return how many of the characters on the lines that differ are wrong, in hundredths."""
    wanted = "".join(axis.expected[number] for number in axis.wrong)
    seen = "".join(axis.seen[number] for number in axis.wrong)
    pairs = [pair for pair in zip(wanted, seen, strict=True) if pair != (BLANK, BLANK)]
    return 100 * sum(one != other for one, other in pairs) // len(pairs)


def _named(character: str) -> str:
    if character == BLANK:
        return "a blank"
    return character


RULES: tuple[Rule, ...] = (
    _single_cell,
    _all_blank,
    _all_one_character,
    _blank_lines,
    _swapped_lines,
    _moved_lines,
    _shifted_in_rows,
    _repeated_lines,
    _too_many,
    _missing,
    _one_character,
    _codes_off,
    _exchanged,
    _otherwise,
)
"""What is said of the cells, by the first that fits; the last one always does."""
