"""Tells how far something is that takes longer than a moment."""

import time
from typing import TextIO

from termprobe.cli.changing_line import ChangingLine
from termprobe.folding import folded

MOMENT_S = 0.5
SURE_AFTER_S = 5.0
"""By then it has shown how fast it goes."""
LONG_S = 60.0
MINUTE_S = 60
WIDTH, INDENT = 80, 2


class Patience:
    """Says on `stream` what is being done, and on a console how far it is, after a moment.

    It is something whose outcome is kept; where it takes minutes, it is said once how many.
    """

    def __init__(self, what: str, stream: TextIO) -> None:
        self._what, self._stream = what, stream
        self._is_console = stream.isatty()
        self._begun_s = time.monotonic()
        self._line, self._is_told = ChangingLine(stream), False
        self._first: tuple[float, int] | None = None
        """Moment and count of the first notice: what was before it was getting ready."""
        self._is_length_told = False

    def told(self, done: int, count: int) -> None:
        """Take notice that `done` of `count` is done."""
        now_s = time.monotonic()
        self._first = self._first or (now_s, done)
        if now_s - self._begun_s < MOMENT_S:
            return
        self._tell_what(done, count)
        left_s = self._left_s(now_s, done, count)
        if left_s > LONG_S and not self._is_length_told:
            self._is_length_told = True
            self._tell_length(round(left_s / MINUTE_S))

    def _left_s(self, now_s: float, done: int, count: int) -> float:
        """Return how long it will take by how fast it has gone so far; 0 before that is known."""
        first_s, first_done = self._first or (now_s, done)
        if now_s - first_s < SURE_AFTER_S:
            return 0.0
        return (now_s - first_s) * (count - done) / max(1, done - first_done)

    def _tell_what(self, done: int, count: int) -> None:
        if self._is_console:
            self._line.show(f"{self._what}: {done} of {count}")
        elif not self._is_told:
            self._is_told = True
            self._stream.write(f"{self._what} ...\n")
            self._stream.flush()

    def _tell_length(self, minutes: int) -> None:
        told = f"{self._what}: about {minutes} min more, this once; Ctrl-C ends it"
        self._line.clear()
        for line in folded("", told, WIDTH, INDENT):
            self._stream.write(line + "\n")
        self._stream.flush()

    def end(self) -> None:
        """Clear the line of a console."""
        self._line.clear()
