"""The words for what is wrong with the dots of all characters, the cursor and the beam. Pure.

    left dot column missing     dot column 3 always lit     every second dot row doubled
    right half missing          upper half drawn twice      dot columns 1 and 2 swapped
    cursor missing              screen blank, cursor there  bright lines over the screen

Rows and columns of dots count from 0; `first`, `second` and so on are understood as well.
"""

import re
from collections.abc import Callable, Iterable, Iterator
from functools import partial
from itertools import combinations

from termprobe.diagnosis.dot_symptom import DotsNoticed, Light, box_of
from termprobe.diagnosis.drawing_changes import (
    DrawnBox,
    columns_alike,
    columns_held,
    columns_swapped,
    held,
    rows_dark,
    rows_read,
    swapped_bits,
)
from termprobe.diagnosis.light_words import light_noticed
from termprobe.profile.characters import character_set
from termprobe.profile.check_dots import row_lines
from termprobe.profile.model import Profile

DOT_WORDS = (
    "left, right, first to ninth, last or middle dot column, or dot column N: missing; always lit",
    "the same of a dot row: missing; doubled",
    "every second dot row: missing; doubled",
    "left, right, upper or lower half of each character missing",
    "upper or lower half of each character drawn twice",
    "from dot column N on: missing; lit",
    "dot columns N and M, or dot rows N and M: swapped; alike",
    "two dot columns, or two dot rows: swapped; alike",
    "solid blocks",
    "cursor missing; cursor everywhere",
    "screen blank; screen blank but cursor there",
    "bright lines over the screen",
)
"""All that is understood, to be read by people. Dot columns and rows count from 0."""
DOT_EXAMPLES = (
    "left dot column missing",
    "right dot column always lit",
    "middle dot column missing",
    "last dot row missing",
    "first dot row doubled",
    "every second dot row doubled",
    "left half of each character missing",
    "upper half drawn twice",
    "lower half missing",
    "from dot column 3 on missing",
    "dot columns 1 and 2 swapped",
    "dot rows 0 and 1 alike",
    "two dot columns swapped",
    "solid blocks",
    "cursor missing",
    "cursor everywhere",
    "screen blank",
    "screen blank but cursor there",
    "bright lines over the screen",
)
_SHORTER = (
    (r"[()\"'!.;:?,]", " "),
    (r"\bscan ?-?lines?\b|\brows\b", "row"),
    (r"\bcolumns\b|\bcols?\b", "column"),
    (r"\b(row|column) of (?:dots|pixels)\b|\b(?:dots?|pixels?) (row|column)\b", r"\1\2"),
    (
        r"\b(?:all |everything )?(?:from|beyond) (.*column(?: \d+)?) (?:on|onwards?|up)\b",
        r"from \1",
    ),
    (
        r"\b(?:(?:bright|white|lit|vertical) )*(?:bar|stripe|line) (?:at|on|to) (?:the |its )?"
        r"(left|right)\b",
        r"\1 column lit",
    ),
    (r"\b(left|right) edges?\b", r"\1 column"),
    (r"\b(top|bottom) edges?\b", r"\1 row"),
    (r"\bhave\b|\bhas\b|\bdrawn (?=with|top|bottom|upper|lower)|\bwith\b", " "),
    (r"\bevery (?:other|second|2nd)\b|\balternat\w+\b", "alternate"),
    (r"\bupper\b", "top"),
    (r"\blower\b", "bottom"),
    (r"\bleft ?-? ?(?:most|hand)\b", "left"),
    (r"\bright ?-? ?(?:most|hand)\b", "right"),
    (
        r"\b(?:(?:always|permanently|constantly|stuck) )?(?:lit|on|bright|high)\b|\bsolid\b",
        "lit",
    ),
    (
        r"\b(?:never lit|not lit|not there|unlit|dark|gone|lost|absent|dead|off|cut off|invisible|"
        r"not (?:to be )?(?:seen|shown|visible|drawn)|never (?:seen|shown|drawn)|blank|empty)\b",
        "missing",
    ),
    (r"\b(?:drawn |shown |seen )?twice\b|\brepeated\b|\bdoubled?\b|\bduplicated\b", "doubled"),
    (r"\bexchanged\b|\binterchanged\b|\bswapped (?:over|round)\b|\bcrossed\b", "swapped"),
    (r"\bthe same\b|\bidentical\b|\btouch(?:ing)?\b|\bshorted\b|\bjoined\b", "alike"),
    (
        r"\b(?:of|in|on|the|an?|is|are|each|every|all|any|characters?|letters?|glyphs?|cells?|dots?|"
        r"pixels?|its|it|there|them|at|over|across|whole|entire|to|be|number|permanently)\b",
        " ",
    ),
)
_SHORTEST = [(re.compile(pattern), by) for pattern, by in _SHORTER]
LONGEST = 200
"""What comes behind so many characters is not read."""
ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth")


def dots_noticed(words: str, profile: Profile) -> DotsNoticed | None:
    """Return what `words` mean, None where that is nothing.

    Raise UsageError where the profile does not tell of dots.
    """
    box = box_of(profile, "--noticed")
    boxed = DrawnBox(box, character_set(str(box.characters)))
    phrase = words.lower()[:LONGEST]
    of_light = light_noticed(phrase, boxed)
    if of_light is not None:
        return of_light
    for pattern, by in _SHORTEST:
        phrase = pattern.sub(by, phrase)
    phrase = " ".join(phrase.split())
    for known, read in _READERS:
        found = known.fullmatch(phrase)
        if found is not None:
            meant = tuple(dict.fromkeys(read(found, boxed)))
            if meant:
                return DotsNoticed(meant)
    return None


def _number(word: str, count: int) -> list[int]:
    """Return which of `count` rows or columns a word means; none where there is no such one."""
    ends = {"left": 0, "top": 0, "right": count - 1, "bottom": count - 1, "last": count - 1}
    if word == "middle":
        return [count // 2]
    if word in ORDINALS:
        number = ORDINALS.index(word)
    elif re.fullmatch(r"\d+(?:st|nd|rd|th)", word):
        number = int(word[:-2]) - 1
    else:
        number = ends[word] if word in ends else int(word)
    return [number] * (0 <= number < count)


def _column(found: re.Match[str], boxed: DrawnBox) -> Iterator[Light]:
    which = found["which"] or found["number"]
    for column in _number(which, boxed.drawn.columns):
        yield columns_held(boxed, [column], found["word"])


def _columns_from(found: re.Match[str], boxed: DrawnBox) -> Iterator[Light]:
    for column in _number(found["column"], boxed.drawn.columns):
        yield columns_held(boxed, range(column, boxed.box.columns), found["word"])


def _some_column_lit(_found: re.Match[str], boxed: DrawnBox) -> Iterator[Light]:
    for column in range(boxed.drawn.columns):
        yield columns_held(boxed, [column], "lit")


def _side_half(found: re.Match[str], boxed: DrawnBox) -> Iterator[Light]:
    width = boxed.drawn.columns
    for middle in sorted({width // 2, (width + 1) // 2}):
        columns = range(middle) if found[1] == "left" else range(middle, boxed.box.columns)
        yield columns_held(boxed, columns, found[2])


def _stuck_rows(boxed: DrawnBox, rows: Iterable[int], is_twice: bool) -> Iterator[Light]:
    """Yield a line of the row's number stuck so that all of `rows` are never read, or twice."""
    known = list(rows)
    for line in range(row_lines(boxed.drawn)):
        for level in (0, 1):
            if all((row >> line & 1 == level) == is_twice for row in known):
                yield rows_read(boxed, held(line, level))


def _row(found: re.Match[str], boxed: DrawnBox) -> Iterator[Light]:
    which = found["which"] or found["number"]
    for row in _number(which, boxed.drawn.rows):
        if found["word"] == "missing":
            yield rows_dark(boxed, row.__eq__)
        yield from _stuck_rows(boxed, [row], found["word"] == "doubled")


def _alternate_rows(found: re.Match[str], boxed: DrawnBox) -> Iterator[Light]:
    if found[1] == "missing":
        yield rows_dark(boxed, lambda line: line % 2 == 1)
        yield rows_dark(boxed, lambda line: line % 2 == 0)
        return
    for level in (0, 1):
        yield rows_read(boxed, held(0, level))


def _end_half(found: re.Match[str], boxed: DrawnBox) -> Iterator[Light]:
    """The upper or lower half is missing, or drawn in the place of the other as well."""
    is_top, half = found[1] == "top", boxed.drawn.rows // 2
    if found[2] == "missing":
        yield rows_dark(boxed, lambda line: (line <= half) == is_top)
        yield rows_dark(boxed, lambda line: (line < half) == is_top)
    line = half.bit_length() - 1
    line = max(line, row_lines(boxed.drawn) - 2)
    for number in (line, line + 1):
        if 1 << number < boxed.drawn.rows:
            yield rows_read(boxed, held(number, int(is_top == (found[2] == "missing"))))


def _pair(found: re.Match[str], boxed: DrawnBox) -> Iterator[Light]:
    axis, how = found["axis"], found["how"]
    count = {"column": boxed.drawn.columns, "row": boxed.drawn.rows}[axis]
    numbers = [*_number(found["one"], count), *_number(found["two"], count)]
    if len({*numbers}) != 2:
        return
    first, second = sorted(numbers)
    if axis == "row":
        exchange = {first: second, second: first}
        if how == "alike":
            exchange = {second: first}
        yield rows_read(boxed, lambda row: exchange.get(row, row))
        for lines in combinations(range(row_lines(boxed.drawn)), 2):
            if how == "swapped" and swapped_bits(first, *lines) == second:
                yield rows_read(boxed, partial(swapped_bits, first=lines[0], second=lines[1]))
    elif how == "swapped":
        yield columns_swapped(boxed, first, second)
    else:
        yield from columns_alike(boxed, first, second)


def _some_pair(found: re.Match[str], boxed: DrawnBox) -> Iterator[Light]:
    axis, how = found[1], found[2]
    if axis == "row" and how == "swapped":
        for first, second in combinations(range(row_lines(boxed.drawn)), 2):
            yield rows_read(boxed, partial(swapped_bits, first=first, second=second))
    elif axis == "column":
        for first, second in combinations(range(boxed.drawn.columns), 2):
            if how == "swapped":
                yield columns_swapped(boxed, first, second)
            else:
                yield from columns_alike(boxed, first, second)


def _blocks(_found: re.Match[str], boxed: DrawnBox) -> Iterator[Light]:
    yield columns_held(boxed, range(boxed.box.columns), "lit")
    yield columns_held(boxed, range(boxed.drawn.columns), "lit")


_WHICH = f"left|right|top|bottom|last|middle|\\d{{1,3}}(?:st|nd|rd|th)|{'|'.join(ORDINALS)}"
_Reader = Callable[[re.Match[str], DrawnBox], Iterable[Light]]
_TABLE: tuple[tuple[str, _Reader], ...] = (
    (
        rf"(?:(?P<which>{_WHICH}) column|column (?P<number>\d{{1,3}})) (?P<word>missing|lit)",
        _column,
    ),
    (rf"from (?P<column>\d{{1,3}}|{_WHICH}) column (?P<word>missing|lit)", _columns_from),
    (r"from column (?P<column>\d{1,3}) (?P<word>missing|lit)", _columns_from),
    (r"(left|right)(?: half| part| side)? (missing|lit)", _side_half),
    (rf"(?:(?P<which>{_WHICH}) row|row (?P<number>\d{{1,3}})) (?P<word>missing|doubled)", _row),
    (r"alternate row (missing|doubled)", _alternate_rows),
    (r"row (doubled)", _alternate_rows),
    (r"(?:only )?(top|bottom)(?: half| part)? (missing|doubled)", _end_half),
    (r"(?:2 |two )(row|column) (swapped|alike)", _some_pair),
    (
        rf"(?P<one>{_WHICH}) and (?P<two>{_WHICH}) (?P<axis>row|column) (?P<how>swapped|alike)",
        _pair,
    ),
    (r"(?P<axis>row|column) (?P<one>\d{1,3}) and (?P<two>\d{1,3}) (?P<how>swapped|alike)", _pair),
    (r"vertical (?:bars?|lines?|strokes?)(?: lit)?", _some_column_lit),
    (r"(?:as |white )?(?:lit )?(?:blocks?|lit|squares?)", _blocks),
)
_READERS = [(re.compile(pattern), read) for pattern, read in _TABLE]
