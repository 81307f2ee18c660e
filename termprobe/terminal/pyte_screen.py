"""The screen, kept in a pyte screen: its cells, cursor and tab stops, with the edges of a profile instead of pyte's own."""

import pyte

from termprobe.terminal.screen import Screen

LETTERS = (("bold", "b"), ("underscore", "u"), ("blink", "k"), ("reverse", "r"))
"""Field of a pyte cell: letter of Screen.renditions."""


class _Cells(dict):
    """Character: cell in the rendition of one pen."""

    def __init__(self, pen):
        super().__init__()
        self._pen = pen

    def __missing__(self, character):
        cell = self[character] = self._pen._replace(data=character)
        return cell


class PyteScreen(pyte.Screen):
    """The cells of a screen and the cursor.

    pyte defers the wrap by a cursor beyond the last column, which many of its methods then mistake. Here the cursor is
    always on the screen, and `is_pending` says that the last column has been filled and the next character goes on in the
    next row. pyte's own drawing attributes stay plain, so that what it erases is plain; the pen is kept apart.
    """

    def __init__(self, display):
        super().__init__(display.columns, display.rows)
        self.printing = display.printing
        self.tabstops = (
            set(range(display.tab_stops, display.columns, display.tab_stops))
            if display.tab_stops
            else set()
        )
        self.is_pending = False
        self.bells = 0
        self.replies = bytearray()
        self._pens = {}
        self.plain()

    def plain(self):
        """End all renditions."""
        self._take(self.default_char)

    def render(self, field):
        """Show what follows in one more rendition, a field of LETTERS."""
        self._take(self._pen._replace(**{field: True}))

    def _take(self, pen):
        self._pen = pen
        self._cells = self._pens.setdefault(pen, _Cells(pen))

    def put(self, text):
        """Store each character at the cursor, which advances."""
        place, cell = 0, self._cells.__getitem__
        while place < len(text):
            if self.is_pending:
                self.next_line(self.printing.last_row)
            column = self.cursor.x
            part = text[place : place + self.columns - column]
            end = column + len(part)
            self.buffer[self.cursor.y].update(zip(range(column, end), map(cell, part)))
            self.cursor.x = min(end, self.columns - 1)
            if end == self.columns:
                self._reach_last_column()
            place += len(part)

    def _reach_last_column(self):
        if self.printing.last_column == "next-row":
            self.next_line(self.printing.last_row)
        else:
            self.is_pending = self.printing.last_column == "pending"

    def move(self, row, column):
        """Put the cursor on a cell of the screen."""
        self.cursor.y, self.cursor.x = row, column
        self.is_pending = False

    def down(self, edge, count=1):
        """Move the cursor down; below the last row `edge` scrolls, wraps or stays."""
        row, last = self.cursor.y + count, self.lines - 1
        if row > last and edge == "scroll":
            self.shift_rows(0, row - last)
        self.move(row % self.lines if edge == "wrap" else min(row, last), self.cursor.x)

    def up(self, edge, count=1):
        """Move the cursor up; above the first row `edge` scrolls, wraps or stays."""
        row = self.cursor.y - count
        if row < 0 and edge == "scroll":
            self.shift_rows(0, row)
        self.move(row % self.lines if edge == "wrap" else max(row, 0), self.cursor.x)

    def left(self, edge, count=1):
        """Move the cursor left; before the first column `edge` wraps, goes on in the row above, or stays."""
        column = self.cursor.x - count
        if edge == "previous-row":
            self.move(*divmod(max(self.cursor.y * self.columns + column, 0), self.columns))
        else:
            self.move(self.cursor.y, column % self.columns if edge == "wrap" else max(column, 0))

    def right(self, edge, count=1):
        """Move the cursor right; behind the last column `edge` wraps, goes on in the row below, or stays."""
        column = self.cursor.x + count
        if edge == "next-row":
            self.down(self.printing.last_row, column // self.columns)
        on_screen = min(column, self.columns - 1) if edge == "stay" else column % self.columns
        self.move(self.cursor.y, on_screen)

    def next_line(self, edge):
        """Move the cursor to column 0 of the next row."""
        self.down(edge)
        self.cursor.x = 0

    def tab(self, edge="stay"):
        """Move the cursor to the next tab stop, or where there is none to the last column or the next row."""
        stop = min((stop for stop in self.tabstops if stop > self.cursor.x), default=None)
        if stop is not None:
            self.move(self.cursor.y, stop)
        elif edge == "next-row":
            self.next_line(self.printing.last_row)
        else:
            self.cursor.x = self.columns - 1  # a wrap that is pending there stays so

    def shift_rows(self, first, count):
        """Move row `first` and all below it up by `count` rows, or down where it is negative; the rows that come free are blank."""
        rows = [self.buffer[row] for row in range(first, self.lines)]
        kept = rows[count:] if count > 0 else rows[:count]
        start = first if count > 0 else self.lines - len(kept)
        for row in range(first, self.lines):
            self.buffer.pop(row)
        self.buffer.update(zip(range(start, self.lines), kept))

    def insert_characters(self, count=None):
        """Push the rest of the row right; pyte keeps the cell that leaves the row, and lets it come back."""
        super().insert_characters(count)
        self.buffer[self.cursor.y].pop(self.columns, None)

    def shown(self):
        """Return what the screen shows."""
        columns = range(self.columns)
        lines = [self.buffer[row] for row in range(self.lines)]
        return Screen(
            rows=tuple("".join([line[column].data for column in columns]) for line in lines),
            cursor=(self.cursor.y, self.cursor.x),
            renditions=dict(sorted(_renditions(lines))),
            bells=self.bells,
            replies=bytes(self.replies),
        )


def _renditions(lines):
    for row, line in enumerate(lines):
        for column, cell in line.items():
            letters = "".join([letter for field, letter in LETTERS if getattr(cell, field)])
            if letters:
                yield (row, column), letters
