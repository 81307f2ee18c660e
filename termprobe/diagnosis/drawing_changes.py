"""Ways in which all drawings of a character set are changed together, as faults do. Pure."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from termprobe.board.generator import good_drawings
from termprobe.diagnosis.dot_symptom import DRAWN_CODES, Light, dots_of
from termprobe.profile.characters import CharacterSet, Glyph
from termprobe.profile.check_dots import row_lines
from termprobe.profile.model import Dots

Redrawing = Callable[[Glyph], Glyph]


@dataclass(frozen=True)
class DrawnBox:
    """Room of a character, and the drawing in it."""

    box: Dots
    drawn: CharacterSet

    def light(self, change: Redrawing, beside: frozenset[tuple[str, str]] = frozenset()) -> Light:
        """Return what is wrong where each drawing is changed so."""
        good = good_drawings(self.box)
        return Light(dots_of(self.box, [change(good[code]) for code in DRAWN_CODES]), beside)

    @property
    def full_line(self) -> int:
        """All dots of a scan line."""
        return (1 << self.box.columns) - 1


def columns_held(boxed: DrawnBox, columns: Iterable[int], word: str) -> Light:
    mask = sum(1 << column for column in columns)
    if word == "lit":
        return boxed.light(lambda glyph: tuple(line | mask for line in glyph))
    return boxed.light(lambda glyph: tuple(line & ~mask for line in glyph))


def held(line: int, level: int) -> Callable[[int], int]:
    """Return which row is read for a scan line where one line of the row's number is stuck."""
    return lambda row: row & ~(1 << line) | level << line


def rows_read(boxed: DrawnBox, read: Callable[[int], int]) -> Light:
    """Return what is wrong where other rows of the drawings are read."""
    lines = 1 << row_lines(boxed.drawn)

    def changed(glyph: Glyph) -> Glyph:
        rows = [read(row) if row < lines else row for row in range(len(glyph))]
        return tuple(_row_or_dark(glyph, row, boxed) for row in rows)

    return boxed.light(changed)


def _row_or_dark(glyph: Glyph, row: int, boxed: DrawnBox) -> int:
    return glyph[row] if row < min(boxed.drawn.rows, len(glyph)) else 0


def rows_dark(boxed: DrawnBox, is_dark: Callable[[int], bool]) -> Light:
    def changed(glyph: Glyph) -> Glyph:
        return tuple(dots * (not is_dark(line)) for line, dots in enumerate(glyph))

    return boxed.light(changed)


def swapped_bits(value: int, first: int, second: int) -> int:
    """Return a value with two of its bits exchanged."""
    if (value >> first ^ value >> second) & 1:
        return value ^ (1 << first | 1 << second)
    return value


def columns_swapped(boxed: DrawnBox, first: int, second: int) -> Light:
    return boxed.light(lambda glyph: tuple(swapped_bits(line, first, second) for line in glyph))


def columns_alike(boxed: DrawnBox, first: int, second: int) -> Iterator[Light]:
    both = 1 << first | 1 << second
    yield boxed.light(lambda glyph: tuple(line | both * bool(line & both) for line in glyph))
    yield boxed.light(
        lambda glyph: tuple(line & ~both | both * (line & both == both) for line in glyph)
    )
