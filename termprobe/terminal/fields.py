"""Protected fields and the graphics set, over the screen that is kept in a pyte screen."""

from collections.abc import Iterable
from dataclasses import replace

from pyte.screens import Char

from termprobe.profile.model import Display
from termprobe.terminal.pyte_screen import PyteScreen
from termprobe.terminal.screen import Screen

PROTECTED = "strikethrough"
"""The field of a pyte cell that says here that it is protected; nothing is shown of that."""


class FieldScreen(PyteScreen):
    """A screen of which cells can be guarded, and written in a graphics set."""

    _protects = False
    """Whether the cells of what follows are protected."""

    def __init__(self, display: Display) -> None:
        super().__init__(display)
        self.guards: str | None = None
        """What becomes of a character that meets a protected cell, `skip` or `stay`; None while
        none is guarded."""
        self.is_graphic = False
        self.is_printing = False
        """Whether text goes to the printer port as well."""
        self._printed = bytearray()
        self._graphics = _graphics_of(display)

    def protect(self, is_on: bool) -> None:
        """Protect the cells of what follows, or no longer; they are guarded only while `guards`."""
        self._protects = is_on
        self.render(PROTECTED, is_on)

    def plain(self) -> None:
        """End all renditions; protection is none."""
        super().plain()
        if self._protects:
            self.render(PROTECTED)

    def put(self, text: str) -> None:
        """Store each character at the cursor, which advances; guarded cells stay as they are."""
        if self.is_printing:
            self._printed += text.encode("latin-1", "replace")
        if self.is_graphic:
            text = text.translate(self._graphics)
        if self.guards is None:
            super().put(text)
            return
        for character in text:
            if self._finds_cell():
                super().put(character)

    def shown(self) -> Screen:
        """Return what the screen shows, and what the printer port got."""
        return replace(super().shown(), printed=bytes(self._printed))

    def _finds_cell(self) -> bool:
        """Go to where a character may be stored while cells are guarded; return whether it may."""
        here = self.cursor.y * self.columns + self.cursor.x + self.is_pending
        for cell in range(here, self.lines * self.columns):
            row, column = divmod(cell, self.columns)
            if not getattr(self.buffer[row][column], PROTECTED):
                if cell > here:
                    self.move(row, column)
                return True
            if self.guards == "stay":
                return False
        return self.is_pending

    def erase_in_display(self, how: int = 0, *args: object, **kwargs: object) -> None:
        """Blank a part of the screen, as pyte does; guarded cells stay."""
        kept = self._guarded()
        super().erase_in_display(how)
        self._put_back(kept)

    def erase_in_line(self, how: int = 0, private: bool = False) -> None:
        """Blank a part of the cursor's row, as pyte does; guarded cells stay."""
        kept = self._guarded()
        super().erase_in_line(how, private)
        self._put_back(kept)

    def _guarded(self) -> list[tuple[int, int, Char]]:
        """Return row, column and contents of each cell that is guarded."""
        if self.guards is None:
            return []
        return [
            (row, column, cell)
            for row, line in self.buffer.items()
            for column, cell in line.items()
            if getattr(cell, PROTECTED)
        ]

    def _put_back(self, kept: Iterable[tuple[int, int, Char]]) -> None:
        for row, column, cell in kept:
            self.buffer[row][column] = cell


def _graphics_of(display: Display) -> dict[int, str]:
    """Return by each code of the graphics set the character that it shows."""
    if display.graphics is None:
        return {}
    return dict(enumerate(display.graphics.shows, display.graphics.first))
