"""The screen, kept in a pyte screen: cells, cursor, tab stops, and the edges of a profile."""

from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache
from itertools import chain
from typing import NamedTuple

import pyte
from pyte.screens import Char, StaticDefaultDict

from termprobe.profile.model import Display
from termprobe.profile.variants import NO_VARIANT, shown_as
from termprobe.terminal.screen import Screen


class Rendition(NamedTuple):
    """A way to show a character."""

    field: str
    """The field of a pyte cell."""
    letter: str
    """What stands for it in Screen.renditions."""


RENDITIONS = (
    Rendition("bold", "b"),
    Rendition("italics", "d"),  # dim, for which pyte has no field
    Rendition("underscore", "u"),
    Rendition("blink", "k"),
    Rendition("reverse", "r"),
)


_Line = StaticDefaultDict[int, Char]


class _Cells(dict[str, Char]):
    """Character: cell in the rendition of one pen."""

    def __init__(self, pen: Char) -> None:
        super().__init__()
        self._pen = pen

    def __missing__(self, character: str) -> Char:
        cell = self[character] = self._pen._replace(data=character)
        return cell


class PyteScreen(pyte.Screen):
    """The cells of a screen and the cursor.

    pyte defers the wrap by a cursor beyond the last column, which many of its methods then mistake.
    Here the cursor is always on the screen, and `is_pending` says that the last column has been
    filled and the next character goes on in the next row. pyte's own drawing attributes stay plain,
    so that what it erases is plain; the pen is kept apart.
    """

    def __init__(self, display: Display) -> None:
        super().__init__(display.columns, display.rows)
        self.printing = display.printing
        self.tabstops = set()
        if display.tab_stops:
            self.tabstops.update(range(display.tab_stops, display.columns, display.tab_stops))
        self.is_pending = False
        self.bells = 0
        self.replies = bytearray()
        self.variant = NO_VARIANT
        """The national variant in which all that is kept is shown."""
        self._dark: list[_Line] | None = None
        """The rows between the lit ones, where only every second row is lit."""
        self._pens: dict[Char, _Cells] = {}
        self.plain()

    def set_halved(self, is_halved: bool) -> None:
        """Light every second row only, or all again; what is kept of each stays.

        While only half are lit, `lines`, `buffer` and the cursor's row are of those alone.
        """
        if is_halved == (self._dark is not None):
            return
        rows = [self.buffer[row] for row in range(self.lines)]
        if self._dark is None:
            rows, self._dark = rows[::2], rows[1::2]
        else:
            rows, self._dark = _alternating(rows, self._dark), None
        self.lines = len(rows)
        self.buffer.clear()
        self.buffer.update(enumerate(rows))
        self.move(min(self.cursor.y, self.lines - 1), self.cursor.x)

    def plain(self) -> None:
        """End all renditions."""
        self._take(self.default_char)

    def render(self, field: str, is_on: bool = True) -> None:
        """Let what follows have one more property, or one less: a field of a pyte cell."""
        fields = self._pen._asdict()
        fields[field] = is_on
        self._take(Char(**fields))

    def _take(self, pen: Char) -> None:
        self._pen = pen
        self._cells = self._pens.setdefault(pen, _Cells(pen))

    def put(self, text: str) -> None:
        """Store each character at the cursor, which advances."""
        index, cell = 0, self._cells.__getitem__
        while index < len(text):
            if self.is_pending:
                self.next_line(self.printing.last_row)
            column = self.cursor.x
            part = text[index : index + self.columns - column]
            end = column + len(part)
            cells = zip(range(column, end), map(cell, part), strict=True)
            self.buffer[self.cursor.y].update(cells)
            self.cursor.x = min(end, self.columns - 1)
            if end == self.columns:
                self._reach_last_column()
            index += len(part)

    def _reach_last_column(self) -> None:
        if self.printing.last_column == "next-row":
            self.next_line(self.printing.last_row)
        else:
            self.is_pending = self.printing.last_column == "pending"

    def move(self, row: int, column: int) -> None:
        """Put the cursor on a cell of the screen."""
        self.cursor.y, self.cursor.x = row, column
        self.is_pending = False

    def down(self, edge: str | None, count: int = 1) -> None:
        """Move the cursor down; below the last row `edge` scrolls, wraps or stays."""
        row, last = self.cursor.y + count, self.lines - 1
        if row > last and edge == "scroll":
            self.shift_rows(0, row - last)
        self.move(_on_screen(row, self.lines, edge), self.cursor.x)

    def up(self, edge: str | None, count: int = 1) -> None:
        """Move the cursor up; above the first row `edge` scrolls, wraps or stays."""
        row = self.cursor.y - count
        if row < 0 and edge == "scroll":
            self.shift_rows(0, row)
        self.move(_on_screen(row, self.lines, edge), self.cursor.x)

    def left(self, edge: str | None, count: int = 1) -> None:
        """Move the cursor left.

        Before the first column `edge` wraps, goes on in the row above, or stays.
        """
        row, column = self.cursor.y, self.cursor.x - count
        if edge == "previous-row":
            row, column = divmod(max(row * self.columns + column, 0), self.columns)
        self.move(row, _on_screen(column, self.columns, edge))

    def right(self, edge: str | None, count: int = 1) -> None:
        """Move the cursor right.

        Behind the last column `edge` wraps, goes on in the row below, or stays.
        """
        column = self.cursor.x + count
        if edge == "next-row":
            rows, column = divmod(column, self.columns)
            self.down(self.printing.last_row, rows)
        self.move(self.cursor.y, _on_screen(column, self.columns, edge))

    def next_line(self, edge: str | None) -> None:
        """Move the cursor to column 0 of the next row."""
        self.down(edge)
        self.cursor.x = 0

    def tab(self, edge: str | None = "stay") -> None:
        """Move the cursor to the next tab stop.

        Where there is none it goes to the last column or the next row.
        """
        stop = min((stop for stop in self.tabstops if stop > self.cursor.x), default=None)
        if stop is not None:
            self.move(self.cursor.y, stop)
        elif edge == "next-row":
            self.next_line(self.printing.last_row)
        else:
            self.cursor.x = self.columns - 1  # a wrap that is pending there stays so

    def shift_rows(self, first: int, count: int) -> None:
        """Move row `first` and all below it up by `count` rows, or down where it is negative.

        The rows that come free are blank. Dark rows between go along where the whole screen moves,
        round its end.
        """
        if self._dark is not None and first == 0:
            turn = count % len(self._dark)
            self._dark = self._dark[turn:] + self._dark[:turn]
        rows = [self.buffer[row] for row in range(first, self.lines)]
        if count > 0:
            kept, start = rows[count:], first
        else:
            kept = rows[:count]
            start = self.lines - len(kept)
        for row in range(first, self.lines):
            del self.buffer[row]
        self.buffer.update(enumerate(kept, start))

    def insert_characters(self, count: int | None = None) -> None:
        """Push the rest of the row right.

        pyte keeps the cell that leaves the row, and would let it come back.
        """
        super().insert_characters(count)
        self.buffer[self.cursor.y].pop(self.columns, None)

    def text(self, row: int) -> str:
        """Return what is kept of a row, a character for each code."""
        return _text(self.buffer[row], self.columns)

    def shown(self) -> Screen:
        """Return what the screen shows."""
        lines = [self.buffer[row] for row in range(self.lines)]
        row = self.cursor.y
        if self._dark is not None:
            lines, row = _alternating(lines, [_nothing() for _ in lines]), 2 * row
        return Screen(
            rows=tuple(shown_as(_text(line, self.columns), self.variant) for line in lines),
            cursor=(row, self.cursor.x),
            renditions=dict(sorted(_renditions(lines))),
            bells=self.bells,
            replies=bytes(self.replies),
            variant=self.variant,
        )


def _alternating(first: Iterable[_Line], second: Iterable[_Line]) -> list[_Line]:
    """Return the rows of both in turn, as many of each."""
    return list(chain.from_iterable(zip(first, second, strict=True)))


def _nothing() -> _Line:
    return StaticDefaultDict(Char(" "))


def _on_screen(index: int, size: int, edge: str | None) -> int:
    """Return a row or column that may lie off the screen, wrapped round or held at the edge."""
    if edge == "wrap":
        return index % size
    return min(max(index, 0), size - 1)


def _text(line: Mapping[int, Char], columns: int) -> str:
    if not line:  # nothing was ever written there
        return " " * columns
    return "".join([line[column].data for column in range(columns)])


def _renditions(
    lines: Iterable[Mapping[int, Char]],
) -> Iterator[tuple[tuple[int, int], str]]:
    """Yield the cell and the letters of each that is not plain."""
    for row, line in enumerate(lines):
        for column, cell in line.items():
            letters = _letters_of(cell)
            if letters:
                yield (row, column), letters


@lru_cache(4096)
def _letters_of(cell: Char) -> str:
    """Return the letters of all that is not plain of a cell; most cells are like many others."""
    return "".join([each.letter for each in RENDITIONS if getattr(cell, each.field)])
