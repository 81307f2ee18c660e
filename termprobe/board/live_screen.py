"""The screen of a board shown live in a window, by the plainest of control sequences."""

from collections.abc import Callable

from termprobe.board.base import TubePicture
from termprobe.folding import folded

MIN_REDRAW_S = 0.05
"""It is drawn at most so often: 20 times a second."""
BEGIN = "\x1b[?1049h\x1b[?7l"
"""Another screen than that of the shell, and no wrapping at its edge."""
END = "\x1b[?7h\x1b[?25h\x1b[?1049l"
CLEAR, REST_OF_LINE = "\x1b[2J", "\x1b[K"
SHOW_CURSOR, HIDE_CURSOR = "\x1b[?25h", "\x1b[?25l"
MOST_NAMED = 6
"""So many characters with wrong dots are named."""
SAID_INDENT = 2
"""Of what stands below the screen, and does not fit into a line."""
STRANGE = "?"
"""Stands for a character that could do anything but stand in its cell."""

Size = tuple[int, int]
"""Columns and rows."""


class LiveScreen:
    """Draws on a window by `write(text)`; `size()` and `now_s()` tell its size and the time.

    It draws all of the screen each time, so that whatever else was written there goes away.
    """

    def __init__(
        self,
        name: str,
        write: Callable[[str], None],
        size: Callable[[], Size],
        now_s: Callable[[], float],
    ) -> None:
        self._name, self._write, self._size, self._now_s = name, write, size, now_s
        self._picture: TubePicture | None = None
        self._said = ""
        self._is_due = False
        self._drawn_s = now_s() - MIN_REDRAW_S
        self._drawn_size: Size | None = None
        """None before the first drawing, and after the end."""

    def show(self, picture: TubePicture) -> None:
        """Draw `picture` now, or as soon as it may be drawn."""
        self._picture, self._is_due = picture, True
        self.tick()

    def say(self, text: str) -> None:
        """Show `text` below the screen, as much of it as has room."""
        self._said, self._is_due = text, True
        self.tick()

    def tick(self) -> None:
        """Draw what has waited, once it may be drawn, or where the window has another size."""
        if self._picture is None:
            return
        is_changed = self._drawn_size not in (None, self._size())
        is_time = self._now_s() - self._drawn_s >= MIN_REDRAW_S
        if is_time and (self._is_due or is_changed):
            self._draw(self._picture, self._size())

    def close(self) -> None:
        """Put the window back as it was."""
        if self._drawn_size is not None:
            self._write(END)
            self._drawn_size = None

    def _draw(self, picture: TubePicture, size: Size) -> None:
        parts = [] if self._drawn_size else [BEGIN]
        if size != self._drawn_size:
            parts.append(CLEAR)
        columns, rows = size
        first = _first_row(picture, rows)
        lines = [_harmless(row) for row in picture.rows[first:]]
        for text in (self._words(picture), *self._said.split("\n")):
            lines += folded("", text, max(columns, 1), SAID_INDENT)
        lines += [""] * (rows - len(lines))
        for number, line in enumerate(lines[:rows], 1):
            rest = REST_OF_LINE * (len(line) < columns)
            parts.append(f"\x1b[{number};1H{line[:columns]}{rest}")
        parts.append(_cursor(picture, first))
        # Known before it is written: an interrupt within the writing must find what to put back.
        self._drawn_s, self._drawn_size, self._is_due = self._now_s(), size, False
        self._write("".join(parts))

    def _words(self, picture: TubePicture) -> str:
        """Return what stands below the screen."""
        where = "not on the screen"
        if _has_cursor(picture):
            where = "row {}, column {}".format(*picture.cursor)
        rung = f"; bell {picture.bells} times" * bool(picture.bells)
        dots = _wrong_dots(picture)
        return f"-- cursor {where}{rung}{dots}; Ctrl-C ends it; {self._name}"


def _wrong_dots(picture: TubePicture) -> str:
    """Return what is drawn with wrong dots, which the characters of a window cannot show."""
    named = [_harmless(what) for what, _ in picture.misdrawn or ()]
    if not named:
        return ""
    letters_first = sorted(named, key=lambda one: not one.isalnum())
    more = " ..." * (len(named) > MOST_NAMED)
    return f"; wrong dots: {' '.join(letters_first[:MOST_NAMED])}{more}"


def _has_cursor(picture: TubePicture) -> bool:
    row, column = picture.cursor
    return 0 <= row < len(picture.rows) and 0 <= column < len(picture.rows[0])


def _first_row(picture: TubePicture, rows: int) -> int:
    """Return the first row to be drawn in a window of `rows`: the cursor's is always among them."""
    if not _has_cursor(picture):
        return 0
    return max(picture.cursor[0] - rows + 1, 0)


def _cursor(picture: TubePicture, first: int) -> str:
    """Return what puts the window's cursor where the board's is, or hides it."""
    if not _has_cursor(picture):
        return HIDE_CURSOR
    row, column = picture.cursor
    return f"\x1b[{row - first + 1};{column + 1}H{SHOW_CURSOR}"


def _harmless(row: str) -> str:
    """Return a row of the screen with a question mark for all but plain characters."""
    if row.isascii() and row.isprintable():
        return row
    return "".join(map(_plain, row))


def _plain(character: str) -> str:
    return character if character.isascii() and character.isprintable() else STRANGE
