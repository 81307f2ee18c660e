"""The Link over an opened port.

One thread collects what arrives, with the time; every failure is a LinkError.
"""

import contextlib
import threading
from collections import deque
from collections.abc import Callable
from types import TracebackType
from typing import Self

from termprobe.clock import Clock
from termprobe.errors import LinkError, LinkLostError, LinkSettingsError
from termprobe.link.base import LineFormat, Received
from termprobe.link.end import End, Piece
from termprobe.link.settings import refuse_impossible
from termprobe.link.trouble import OPEN, PORT_ERRORS, link_error, translated

CHUNK = 16
"""Characters handed over at a time: what is lost when a port vanishes stays countable."""
KEPT_LIMIT = 1 << 22
"""Characters kept for a reader that does not come.

What arrives beyond is dropped and marked `overrun`.
"""
DROPPED = Piece(b"", "overrun")
HARDWARE_QUEUE = 16
"""Characters that may sit in a UART below what the system counts (16550 and the like)."""
POLL_S = 0.002
JOIN_LIMIT_S = 0.5


class PortLink:
    """A Link over one end (termprobe/link/end.py)."""

    def __init__(
        self, end: End, name: str, format: LineFormat, clock: Clock, note: str = ""
    ) -> None:
        self.name = name
        self.format = format
        self.note = note
        self._end = end
        self._clock = clock
        self._carried = _carried_codes(end, format)
        self._counted_before = end.counters()
        self._line_free_s = clock.now_s()
        self._arrived: deque[Received] = deque()
        self._kept = 0
        self._failure: LinkError | None = None
        self._changed = threading.Condition()
        self._is_closed = False
        self._collector = threading.Thread(
            target=self._collect, daemon=True, name=f"reader of {name}"
        )
        self._collector.start()

    def _collect(self) -> None:
        try:
            while (pieces := self._end.read()) is not None:
                at_s = self._clock.now_s()
                with self._changed:
                    for piece in pieces:
                        self._keep(at_s, piece)
                    self._changed.notify_all()
        except PORT_ERRORS as error:
            with self._changed:
                self._failure = link_error(error, self.name)
                self._changed.notify_all()

    def _keep(self, at_s: float, piece: Piece) -> None:
        if self._kept + len(piece.data) > KEPT_LIMIT:
            piece = DROPPED
            if self._arrived and self._arrived[-1].error == DROPPED.mark:
                return
        self._kept += len(piece.data)
        self._arrived.append(Received(at_s, piece.data.translate(self._carried), piece.mark))

    def write(self, data: bytes) -> None:
        self._refuse_if_closed()
        data = data.translate(self._carried)
        for start in range(0, len(data), CHUNK):
            if self._failure:
                raise self._failure
            chunk = data[start : start + CHUNK]
            with translated(self.name):
                self._end.write(chunk)
            begins_s = max(self._line_free_s, self._clock.now_s())
            self._line_free_s = begins_s + len(chunk) * self.format.character_s

    def read(self, wait_s: float) -> tuple[Received, ...]:
        self._refuse_if_closed()
        with self._changed:
            self._changed.wait_for(self._has_news, max(wait_s, 0))
            if self._failure and not self._arrived:
                raise self._failure
            arrived, self._kept = tuple(self._arrived), 0
            self._arrived.clear()
        return arrived

    def _has_news(self) -> bool:
        return bool(self._arrived or self._failure or self._is_closed)

    @property
    def abilities(self) -> frozenset[str]:
        self._refuse_if_closed()
        with translated(self.name):
            return self._end.abilities

    def set_format(self, format: LineFormat) -> None:
        self._refuse_if_closed()
        refuse_impossible(self.name, format)
        if not self._end.is_stream:
            self._set_frame(format)
        self.format, self._carried = format, _carried_codes(self._end, format)

    def _set_frame(self, format: LineFormat) -> None:
        """Have the port take the frame, or else the one that it had."""
        try:
            with translated(self.name, OPEN):
                self._end.set_format(format)
        except LinkSettingsError:
            self._attempt(lambda: self._end.set_format(self.format))
            raise

    def unsent(self) -> int | None:
        if "unsent" not in self.abilities:
            return None
        return self._unsent()

    def break_s(self) -> float | None:
        """Return None: no driver tells."""
        self._refuse_if_closed()
        return None

    def counters(self) -> dict[str, int]:
        self._refuse_if_closed()
        with translated(self.name):
            counted = self._end.counters()
        return {
            name: number - self._counted_before.get(name, 0) for name, number in counted.items()
        }

    def drain(self, limit_s: float) -> bool:
        self._refuse_if_closed()
        deadline_s = self._clock.now_s() + limit_s
        while self._unsent():
            if self._clock.now_s() >= deadline_s:
                return False
            self._clock.sleep_until(min(self._clock.now_s() + POLL_S, deadline_s))
        if self._end.is_stream:
            return True
        hidden_s = HARDWARE_QUEUE * self.format.character_s
        left_s = min(self._line_free_s, self._clock.now_s() + hidden_s)
        self._clock.sleep_until(min(left_s, deadline_s))
        return left_s <= deadline_s

    def _unsent(self) -> int:
        with translated(self.name):
            return self._end.unsent()

    def lines(self) -> dict[str, bool] | None:
        self._refuse_if_closed()
        with translated(self.name):
            return self._end.lines()

    def set_line(self, line: str, on: bool) -> None:
        self._refuse_if_closed()
        try:
            with translated(self.name):
                self._end.set_line(line, on)
        except LinkSettingsError as error:
            raise LinkSettingsError(
                f"{self.name}: to drive {line} the port must have control lines, "
                "but this has none; use a real port for that"
            ) from error

    def close(self) -> None:
        with self._changed:
            if self._is_closed:
                return
            self._is_closed = True
            self._changed.notify_all()
        self._attempt(self._end.cancel)
        self._collector.join(JOIN_LIMIT_S)
        self._attempt(self._end.close)

    def _attempt(self, step: Callable[[], None]) -> None:
        """A port that has gone cannot be closed properly, and need not be."""
        with contextlib.suppress(*PORT_ERRORS):
            step()

    def _refuse_if_closed(self) -> None:
        if self._is_closed:
            raise LinkLostError(
                f"{self.name}: the port must be open, but it was closed; open it again"
            )

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()


def _carried_codes(end: End, format: LineFormat) -> bytes:
    """Return what becomes of each byte: a stream drops bits that no character of `format` has."""
    every_code = bytes(range(256))
    if not end.is_stream:
        return every_code
    mask = (1 << format.data_bits) - 1
    return bytes(code & mask for code in every_code)
