"""The console that a stream writes to: how wide it is, what it is told, and what it is asked."""

import os
import sys
from collections.abc import Sequence
from typing import TextIO

from termprobe.cli.typed_lines import LINES
from termprobe.folding import folded
from termprobe.notation import visible
from termprobe.plan.dot_drawing import draw_dots
from termprobe.plan.show import draw_screen
from termprobe.terminal.dots import Enlarged
from termprobe.terminal.screen import Screen

DUMB = "dumb"
"""In TERM, a terminal that takes lines of text and no commands."""
PARAGRAPH_WIDTH = 78
"""Columns of a paragraph, on any console."""


def columns(stream: TextIO) -> int | None:
    """Return how many columns the console behind `stream` has, None where it does not tell."""
    try:
        if not stream.isatty():
            return None
        return os.get_terminal_size(stream.fileno()).columns or None
    except (OSError, ValueError):
        return None


def is_typed_at() -> bool:
    """Return whether a person types on the standard input."""
    return sys.stdin.isatty()


def is_full_screen() -> bool:
    """Return whether a person types, and sees what is printed on a screen that can be drawn on."""
    return is_typed_at() and sys.stdout.isatty() and not _is_dumb()


def _is_dumb() -> bool:
    """Return whether the terminal is said to print alone, or nobody says what it is (POSIX)."""
    return os.name == "posix" and os.environ.get("TERM", DUMB) in ("", DUMB)


class Console:
    """A person who reads `stream` and types on the standard input."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream

    def tell(self, text: str) -> None:
        """Print `text` on lines of its own, at once, with nothing raw in them."""
        print("\n".join(map(visible, text.split("\n"))), file=self._stream, flush=True)

    def tell_paragraph(self, text: str) -> None:
        """Print `text`, folded, on lines of its own."""
        self.tell("\n".join(folded("", text, PARAGRAPH_WIDTH)))

    def ring(self) -> None:
        """Sound its bell, where it is a screen."""
        if self._stream.isatty():
            print(end="\a", file=self._stream, flush=True)

    def prompt(self, text: str) -> None:
        """Print `text`, the line to be gone on with."""
        print(text, end="", file=self._stream, flush=True)

    def ask(self, prompt: str) -> str:
        """Return the line that is typed behind `prompt`; raise EOFError at the end of the input.

        Where nothing was typed, what is told next begins on a line of its own.
        """
        self.prompt(prompt)
        line = ""
        try:
            line = LINES.next_line()
        finally:
            if not line:
                print(file=self._stream)
        if not line:
            raise EOFError
        return line.rstrip("\n")

    def draw(self, screen: Screen) -> str:
        """Return the drawing of a screen, as wide as the console."""
        return draw_screen(screen, columns(self._stream))

    def draw_dots(self, enlarged: Sequence[Enlarged]) -> str:
        """Return characters dot by dot, as wide as the console; in blocks where it has them."""
        encoding = (self._stream.encoding or "").lower().replace("-", "")
        is_in_blocks = self._stream.isatty() and encoding == "utf8"
        return "\n".join(draw_dots(enlarged, columns(self._stream), is_in_blocks))
