"""Tells how far something is that takes longer than a moment."""

import time
from typing import TextIO

from termprobe.cli.changing_line import ChangingLine

MOMENT_S = 0.5


class Patience:
    """Says on `stream` what is being done, and on a console how far it is, after a moment."""

    def __init__(self, what: str, stream: TextIO) -> None:
        self._what, self._stream = what, stream
        self._is_console = stream.isatty()
        self._begun_s = time.monotonic()
        self._line, self._is_told = ChangingLine(stream), False

    def told(self, done: int, count: int) -> None:
        """Take notice that `done` of `count` is done."""
        if time.monotonic() - self._begun_s < MOMENT_S:
            return
        if self._is_console:
            self._line.show(f"{self._what}: {done} of {count}")
        elif not self._is_told:
            self._is_told = True
            self._stream.write(f"{self._what} ...\n")
            self._stream.flush()

    def end(self) -> None:
        """Clear the line of a console."""
        self._line.clear()
