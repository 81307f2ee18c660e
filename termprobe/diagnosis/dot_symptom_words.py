"""The words for what is wrong with the dots of all characters, the cursor and the beam. Pure.

    left dot column missing     dot column 3 always lit     every second dot row doubled
    right half missing          upper half drawn twice      dot columns 1 and 2 swapped
    cursor missing              screen blank, cursor there  bright lines over the screen

Rows and columns of dots count from 0; `first`, `second` and so on are understood as well.
"""

import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import partial
from itertools import combinations

from termprobe.board.generator import (
    BEAM,
    CURSOR,
    EVERYWHERE,
    MISSING,
    SEEN,
    good_drawings,
)
from termprobe.diagnosis.dot_symptom import DotsNoticed, Light, box_of, dots_of
from termprobe.errors import UsageError
from termprobe.profile.characters import PRINTING, CharacterSet, Glyph, character_set
from termprobe.profile.check_dots import row_lines
from termprobe.profile.model import Dots, Profile

GRAMMAR = (
    "the left, right, first to ninth, last or middle dot column, or dot column N, missing or "
    "always lit; the same of a dot row, missing or doubled; every second dot row missing or "
    "doubled; left, right, upper or lower half of each character missing, or drawn twice; from dot "
    "column N on missing or lit; dot columns or rows N and M swapped, or alike; two dot columns or "
    "rows swapped; solid blocks; cursor missing; cursor everywhere; screen blank; screen blank but "
    "cursor there; bright lines over the screen. Dot columns and rows count from 0"
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
    (r"\b(?:bar|stripe|line) (?:at|on|to) (?:the )?(left|right)\b", r"\1 column lit"),
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
ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth")
NO_CURSOR: frozenset[tuple[str, str]] = frozenset({(CURSOR, MISSING)})
Change = Callable[[Glyph], Glyph]


@dataclass(frozen=True)
class _Box:
    """Room of a character, and the drawing in it."""

    box: Dots
    drawn: CharacterSet

    def light(self, change: Change, beside: frozenset[tuple[str, str]] = frozenset()) -> Light:
        """Return what is wrong where each drawing is changed so."""
        good = good_drawings(self.box)
        return Light(dots_of(self.box, [change(good[code]) for code in PRINTING]), beside)

    @property
    def full_line(self) -> int:
        """All dots of a scan line."""
        return (1 << self.box.columns) - 1


def dots_noticed(words: str, profile: Profile) -> DotsNoticed:
    """Return what `words` mean; raise UsageError where they mean nothing."""
    box = box_of(profile, "--noticed")
    boxed = _Box(box, character_set(str(box.characters)))
    phrase = words.lower()
    of_light = next((light for light in _OF_LIGHT if light.is_told(phrase)), None)
    if of_light is not None:
        return DotsNoticed(tuple(of_light.meant(boxed)))
    for pattern, by in _SHORTEST:
        phrase = pattern.sub(by, phrase)
    phrase = " ".join(phrase.split())
    for known, read in _READERS:
        found = known.fullmatch(phrase)
        if found is not None:
            meant = tuple(dict.fromkeys(read(found, boxed)))
            if meant:
                return DotsNoticed(meant)
    raise UsageError(f'--noticed must be {GRAMMAR}, not "{words}"')


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


def _columns_held(boxed: _Box, columns: Iterable[int], word: str) -> Light:
    mask = sum(1 << column for column in columns)
    if word == "lit":
        return boxed.light(lambda glyph: tuple(line | mask for line in glyph))
    return boxed.light(lambda glyph: tuple(line & ~mask for line in glyph))


def _column(found: re.Match[str], boxed: _Box) -> Iterator[Light]:
    which = found["which"] or found["number"]
    for column in _number(which, boxed.drawn.columns):
        yield _columns_held(boxed, [column], found["word"])


def _columns_from(found: re.Match[str], boxed: _Box) -> Iterator[Light]:
    for column in _number(found["column"], boxed.drawn.columns):
        yield _columns_held(boxed, range(column, boxed.box.columns), found["word"])


def _some_column_lit(_found: re.Match[str], boxed: _Box) -> Iterator[Light]:
    for column in range(boxed.drawn.columns):
        yield _columns_held(boxed, [column], "lit")


def _side_half(found: re.Match[str], boxed: _Box) -> Iterator[Light]:
    width = boxed.drawn.columns
    for middle in sorted({width // 2, (width + 1) // 2}):
        columns = range(middle) if found[1] == "left" else range(middle, boxed.box.columns)
        yield _columns_held(boxed, columns, found[2])


def _held(line: int, level: int) -> Callable[[int], int]:
    """Return which row is read for a scan line where one line of the row's number is stuck."""
    return lambda row: row & ~(1 << line) | level << line


def _rows_read(boxed: _Box, read: Callable[[int], int]) -> Light:
    """Return what is wrong where other rows of the drawings are read."""
    lines = 1 << row_lines(boxed.drawn)

    def changed(glyph: Glyph) -> Glyph:
        rows = [read(row) if row < lines else row for row in range(len(glyph))]
        return tuple(_row_or_dark(glyph, row, boxed) for row in rows)

    return boxed.light(changed)


def _row_or_dark(glyph: Glyph, row: int, boxed: _Box) -> int:
    return glyph[row] if row < min(boxed.drawn.rows, len(glyph)) else 0


def _stuck_rows(boxed: _Box, rows: Iterable[int], is_twice: bool) -> Iterator[Light]:
    """Yield a line of the row's number stuck so that all of `rows` are never read, or twice."""
    known = list(rows)
    for line in range(row_lines(boxed.drawn)):
        for level in (0, 1):
            if all((row >> line & 1 == level) == is_twice for row in known):
                yield _rows_read(boxed, _held(line, level))


def _row(found: re.Match[str], boxed: _Box) -> Iterator[Light]:
    which = found["which"] or found["number"]
    for row in _number(which, boxed.drawn.rows):
        if found["word"] == "missing":
            yield _rows_dark(boxed, row.__eq__)
        yield from _stuck_rows(boxed, [row], found["word"] == "doubled")


def _rows_dark(boxed: _Box, is_dark: Callable[[int], bool]) -> Light:
    def changed(glyph: Glyph) -> Glyph:
        return tuple(dots * (not is_dark(line)) for line, dots in enumerate(glyph))

    return boxed.light(changed)


def _alternate_rows(found: re.Match[str], boxed: _Box) -> Iterator[Light]:
    if found[1] == "missing":
        yield _rows_dark(boxed, lambda line: line % 2 == 1)
        yield _rows_dark(boxed, lambda line: line % 2 == 0)
        return
    for level in (0, 1):
        yield _rows_read(boxed, _held(0, level))


def _end_half(found: re.Match[str], boxed: _Box) -> Iterator[Light]:
    """The upper or lower half is missing, or drawn in the place of the other as well."""
    is_top, half = found[1] == "top", boxed.drawn.rows // 2
    if found[2] == "missing":
        yield _rows_dark(boxed, lambda line: (line <= half) == is_top)
        yield _rows_dark(boxed, lambda line: (line < half) == is_top)
    line = half.bit_length() - 1
    line = max(line, row_lines(boxed.drawn) - 2)
    for number in (line, line + 1):
        if 1 << number < boxed.drawn.rows:
            yield _rows_read(boxed, _held(number, int(is_top == (found[2] == "missing"))))


def _swapped_bits(value: int, first: int, second: int) -> int:
    """Return a value with two of its bits exchanged."""
    if (value >> first ^ value >> second) & 1:
        return value ^ (1 << first | 1 << second)
    return value


def _columns_swapped(boxed: _Box, first: int, second: int) -> Light:
    return boxed.light(lambda glyph: tuple(_swapped_bits(line, first, second) for line in glyph))


def _pair(found: re.Match[str], boxed: _Box) -> Iterator[Light]:
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
        yield _rows_read(boxed, lambda row: exchange.get(row, row))
    elif how == "swapped":
        yield _columns_swapped(boxed, first, second)
    else:
        yield from _columns_alike(boxed, first, second)


def _columns_alike(boxed: _Box, first: int, second: int) -> Iterator[Light]:
    both = 1 << first | 1 << second
    yield boxed.light(lambda glyph: tuple(line | both * bool(line & both) for line in glyph))
    yield boxed.light(
        lambda glyph: tuple(line & ~both | both * (line & both == both) for line in glyph)
    )


def _some_pair(found: re.Match[str], boxed: _Box) -> Iterator[Light]:
    axis, how = found[1], found[2]
    if axis == "row" and how == "swapped":
        for first, second in combinations(range(row_lines(boxed.drawn)), 2):
            yield _rows_read(boxed, partial(_swapped_bits, first=first, second=second))
    elif axis == "column":
        for first, second in combinations(range(boxed.drawn.columns), 2):
            if how == "swapped":
                yield _columns_swapped(boxed, first, second)
            else:
                yield from _columns_alike(boxed, first, second)


def _blocks(_found: re.Match[str], boxed: _Box) -> Iterator[Light]:
    yield _columns_held(boxed, range(boxed.box.columns), "lit")
    yield _columns_held(boxed, range(boxed.drawn.columns), "lit")


def _dark(boxed: _Box, beside: frozenset[tuple[str, str]]) -> Light:
    return boxed.light(lambda glyph: (0,) * len(glyph), beside)


def _blank(boxed: _Box) -> Iterator[Light]:
    yield _dark(boxed, NO_CURSOR)
    yield _dark(boxed, frozenset())


@dataclass(frozen=True)
class _OfLight:
    """What is wrong with the light of the whole screen, and by which words that is told."""

    told: re.Pattern[str]
    meant: Callable[[_Box], Iterable[Light]]
    and_not: re.Pattern[str] = re.compile(r"(?!)")

    def is_told(self, phrase: str) -> bool:
        """Return whether a phrase tells of it."""
        return bool(self.told.search(phrase)) and not self.and_not.search(phrase)


_BLANK = (
    r"(?:screen|display|picture|tube)\b.*\b(?:blank|dark|empty|black|dead)\b|\bnothing\b"
    r"|(?:blank|dark|empty|black|dead) (?:screen|display|picture|tube)"
    r"|no (?:text|characters|picture|video)\b"
)
_CURSOR_TOO = re.compile(
    r"no cursor|cursor.*\b(?:missing|gone|not|nowhere|either|too|never|invisible|lost|as well)"
    r"|not even|\bnor\b|without (?:a |the )?cursor|neither"
)
_CURSOR_ALL_OVER = re.compile(r"cursor.*(?:everywhere|every|each|all )|screen.*(?:inver|reverse)")
_OF_LIGHT = (
    _OfLight(
        re.compile(rf"(?:{_BLANK}).*cursor|cursor.*(?:{_BLANK})"),
        lambda boxed: [_dark(boxed, frozenset())],
        _CURSOR_TOO,
    ),
    _OfLight(
        re.compile(rf"(?:{_BLANK}).*cursor|cursor.*(?:{_BLANK})"),
        lambda boxed: [_dark(boxed, NO_CURSOR)],
    ),
    _OfLight(re.compile(_BLANK), _blank),
    _OfLight(_CURSOR_ALL_OVER, lambda _boxed: [Light(0, frozenset({(CURSOR, EVERYWHERE)}))]),
    _OfLight(re.compile(r"cursor"), lambda _boxed: [Light(0, NO_CURSOR)]),
    _OfLight(
        re.compile(r"(?:bright|retrace|flyback|diagonal|slanting|white) lines|beam|not blanked"),
        lambda _boxed: [Light(0, frozenset({(BEAM, SEEN)}))],
    ),
)


_WHICH = f"left|right|top|bottom|last|middle|\\d+(?:st|nd|rd|th)|{'|'.join(ORDINALS)}"
_Reader = Callable[[re.Match[str], _Box], Iterable[Light]]
_TABLE: tuple[tuple[str, _Reader], ...] = (
    (rf"(?:(?P<which>{_WHICH}) column|column (?P<number>\d+)) (?P<word>missing|lit)", _column),
    (rf"from (?P<column>\d+|{_WHICH}) column (?P<word>missing|lit)", _columns_from),
    (r"from column (?P<column>\d+) (?P<word>missing|lit)", _columns_from),
    (r"(left|right) half (missing|lit)", _side_half),
    (rf"(?:(?P<which>{_WHICH}) row|row (?P<number>\d+)) (?P<word>missing|doubled)", _row),
    (r"alternate row (missing|doubled)", _alternate_rows),
    (r"row (doubled)", _alternate_rows),
    (r"(?:only )?(top|bottom) half (missing|doubled)", _end_half),
    (r"(?:2 |two )(row|column) (swapped|alike)", _some_pair),
    (
        rf"(?P<one>{_WHICH}) and (?P<two>{_WHICH}) (?P<axis>row|column) (?P<how>swapped|alike)",
        _pair,
    ),
    (r"(?P<axis>row|column) (?P<one>\d+) and (?P<two>\d+) (?P<how>swapped|alike)", _pair),
    (r"vertical (?:bars?|lines?|strokes?)(?: lit)?", _some_column_lit),
    (r"(?:as |white )?(?:lit )?(?:blocks?|lit|squares?)", _blocks),
)
_READERS = [(re.compile(pattern), read) for pattern, read in _TABLE]
