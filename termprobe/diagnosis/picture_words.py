"""How a wrong screen differs from the right one, as one short sentence.

The sentence is made by rules from both screens alone: the first that fits says it. Pure.
"""

from collections.abc import Callable, Iterator

from termprobe.diagnosis.dot_words import dots_sentence
from termprobe.diagnosis.lines_in_words import (
    cell_in_words,
    counted,
    joined,
    times,
    where_in_words,
)
from termprobe.diagnosis.picture_lines import (
    EMPTY,
    Comparison,
    Direction,
    blank_lines,
    moved_lines,
    repeated_lines,
    shifted_in_rows,
    swapped_lines,
)
from termprobe.profile.model import Dots
from termprobe.terminal.screen import Difference, Screen
from termprobe.verdict.evidence import code_of_character

SMALL_LETTERS = 0x20
"""So many codes behind the capitals."""
MOST_EXAMPLES = 2
HALF, NEARLY_ALL = range(40, 61), range(90, 100)
"""In hundredths: so many of the characters are every second one, and nearly every one."""


SentenceRule = Callable[[Comparison], str]
"""Returns a sentence, or nothing where it does not fit."""


def sentence_of(expected: Screen, seen: Screen, box: Dots | None = None) -> str:
    """Return how `seen` differs, in at most a dozen words or two; nothing where it does not.

    `box` tells of the dots of the characters, where they are known.
    """
    pair = Comparison(expected, seen)
    parts = [_of_cells(pair), _of_cursor(pair), _of_bell(pair), dots_sentence(seen.misdrawn, box)]
    return "; ".join(filter(None, parts))


def first_in_words(expected: Screen, seen: Screen) -> str:
    """Return what is seen in the first cell that differs; nothing where none does."""
    pair = Comparison(expected, seen)
    if not pair.cells:
        return ""
    return _first(pair)


def _of_cells(pair: Comparison) -> str:
    if not pair.cells:
        return ""
    return next(filter(None, (rule(pair) for rule in RULES)))


def _of_cursor(pair: Comparison) -> str:
    wanted, seen = pair.expected.cursor, pair.seen.cursor
    if wanted is None or seen is None or wanted == seen:
        return ""
    return f"cursor at {cell_in_words(*seen)}"


def _of_bell(pair: Comparison) -> str:
    wanted, heard = pair.expected.bells, pair.seen.bells
    if heard == wanted:
        return ""
    if not heard:
        return "the bell does not ring"
    return f"the bell rings {times(heard)}"


def _single_cell(pair: Comparison) -> str:
    """One cell alone differs."""
    if len(pair.cells) > 1:
        return ""
    return _too_many(pair) or _missing(pair) or _exchanged(pair)


def _all_blank(pair: Comparison) -> str:
    return "the screen is blank" * (not "".join(pair.seen.rows).strip(EMPTY))


def _all_one_character(pair: Comparison) -> str:
    first, *others = set("".join(pair.seen.rows))
    return f"{_named(first)} all over the screen" * (not others)


def _too_many(pair: Comparison) -> str:
    """There are characters where all must be blank."""
    if any(cell.expected != EMPTY for cell in pair.cells):
        return ""
    where = where_in_words(pair.cells, pair.rows, pair.columns)
    seen = {cell.seen for cell in pair.cells}
    if len(seen) == 1:
        often = f"{times(len(pair.cells))} " * (len(pair.cells) > 1)
        return f"{_named(seen.pop())} {often}too many {where}".rstrip()
    return f"{counted(len(pair.cells), 'character')} too many {where}".rstrip()


def _missing(pair: Comparison) -> str:
    """Characters are blank that must not be."""
    if any(cell.seen != EMPTY for cell in pair.cells):
        return ""
    where = where_in_words(pair.cells, pair.rows, pair.columns)
    return f"{_which(pair)} blank {where}".rstrip()


def _one_character(pair: Comparison) -> str:
    """Another character stands, everywhere the same."""
    seen = {cell.seen for cell in pair.cells}
    if len(seen) > 1 or len(pair.cells) == 1:
        return ""
    where = where_in_words(pair.cells, pair.rows, pair.columns)
    return f"{_which(pair)} shown as {_named(seen.pop())} {where}".rstrip()


def _codes_off(pair: Comparison) -> str:
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


def _are_letters(pair: Comparison) -> bool:
    return all(cell.expected.isalpha() for cell in pair.cells)


def _exchanged(pair: Comparison) -> str:
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


def _otherwise(pair: Comparison) -> str:
    told = f"{counted(len(pair.cells), 'cell')} differ"
    where = where_in_words(pair.cells, pair.rows, pair.columns)
    return f"{told} {where}".rstrip() + f", {_first(pair)}"


def _first(pair: Comparison) -> str:
    first = pair.cells[0]
    return f"first {_named(first.seen)} at {cell_in_words(first.row, first.column)}"


def _which(pair: Comparison) -> str:
    """Return which characters differ: every, every second, or some."""
    share = max(_share(axis) for axis in pair.axes)
    if share == 100 and len(pair.cells) > 1:
        return "every character"
    if share in HALF and len(pair.cells) > 2:
        return "every second character"
    if share in NEARLY_ALL:
        return "nearly every character"
    return counted(len(pair.cells), "character")


def _share(axis: Direction) -> int:
    """Return how many of the characters on the lines that differ are wrong, in hundredths."""
    wanted = "".join(axis.expected[number] for number in axis.wrong)
    seen = "".join(axis.seen[number] for number in axis.wrong)
    pairs = [pair for pair in zip(wanted, seen, strict=True) if pair != (EMPTY, EMPTY)]
    return 100 * sum(one != other for one, other in pairs) // len(pairs)


def _named(character: str) -> str:
    if character == EMPTY:
        return "a blank"
    return character


RULES: tuple[SentenceRule, ...] = (
    _single_cell,
    _all_blank,
    _all_one_character,
    blank_lines,
    swapped_lines,
    moved_lines,
    shifted_in_rows,
    repeated_lines,
    _too_many,
    _missing,
    _one_character,
    _codes_off,
    _exchanged,
    _otherwise,
)
"""What is said of the cells, by the first that fits; the last one always does."""
