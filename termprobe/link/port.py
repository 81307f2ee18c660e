"""The Link over an opened port: one thread collects what arrives, with the time; every failure is a LinkError."""

import threading
from collections import deque

from termprobe.errors import LinkLostError, LinkSettingsError
from termprobe.link.base import Received
from termprobe.link.trouble import PORT_ERRORS, link_error, translated

CHUNK = 16
"""Characters handed over at a time: what is lost when a port vanishes stays countable."""
KEPT_LIMIT = 1 << 22
"""Characters kept for a reader that does not come; what arrives beyond is dropped and marked `overrun`."""
HARDWARE_QUEUE = 16
"""Characters that may sit in a UART below what the system counts (16550 and the like)."""
POLL_S = 0.002
JOIN_LIMIT_S = 0.5


class PortLink:
    """A Link over one end (termprobe/link/ends.py)."""

    def __init__(self, end, name, format, clock, note=""):
        self.name = name
        self.format = format
        self.note = note
        """One line where the port is not what was asked for, to be kept with the run; else empty."""
        self._end = end
        self._clock = clock
        self._carried = _carried_codes(format) if end.is_stream else None
        self._line_free_s = clock.now_s()
        self._arrived = deque()
        self._kept = 0
        self._failure = None
        self._changed = threading.Condition()
        self._is_closed = False
        self._collector = threading.Thread(
            target=self._collect, daemon=True, name=f"reader of {name}"
        )
        self._collector.start()

    def _collect(self):
        try:
            while (pieces := self._end.read()) is not None:
                at_s = self._clock.now_s()
                with self._changed:
                    for data, mark in pieces:
                        self._keep(at_s, data, mark)
                    self._changed.notify_all()
        except PORT_ERRORS as error:
            with self._changed:
                self._failure = link_error(error, self.name)
                self._changed.notify_all()

    def _keep(self, at_s, data, mark):
        if self._kept + len(data) > KEPT_LIMIT:
            data, mark = b"", "overrun"
            if self._arrived and self._arrived[-1].error == mark:
                return
        self._kept += len(data)
        self._arrived.append(Received(at_s, data.translate(self._carried), mark))

    def write(self, data):
        self._refuse_if_closed()
        data = bytes(data).translate(self._carried)
        for start in range(0, len(data), CHUNK):
            if self._failure:
                raise self._failure
            chunk = data[start : start + CHUNK]
            with translated(self.name):
                self._end.write(chunk)
            self._line_free_s = (
                max(self._line_free_s, self._clock.now_s()) + len(chunk) * self.format.character_s
            )

    def read(self, wait_s):
        self._refuse_if_closed()
        with self._changed:
            self._changed.wait_for(
                lambda: self._arrived or self._failure or self._is_closed, max(wait_s, 0)
            )
            if self._failure and not self._arrived:
                raise self._failure
            arrived, self._kept = tuple(self._arrived), 0
            self._arrived.clear()
        return arrived

    def drain(self, limit_s):
        self._refuse_if_closed()
        deadline_s = self._clock.now_s() + limit_s
        while self._unsent():
            if self._clock.now_s() >= deadline_s:
                return False
            self._clock.sleep_until(min(self._clock.now_s() + POLL_S, deadline_s))
        if self._end.is_stream:
            return True
        left_s = min(
            self._line_free_s, self._clock.now_s() + HARDWARE_QUEUE * self.format.character_s
        )
        self._clock.sleep_until(min(left_s, deadline_s))
        return left_s <= deadline_s

    def _unsent(self):
        with translated(self.name):
            return self._end.unsent()

    def lines(self):
        self._refuse_if_closed()
        with translated(self.name):
            return self._end.lines()

    def set_line(self, line, on):
        self._refuse_if_closed()
        try:
            with translated(self.name):
                self._end.set_line(line, on)
        except LinkSettingsError as error:
            raise LinkSettingsError(
                f"{self.name}: to drive {line} the port must have control lines, but this has none; "
                "use a real port for that"
            ) from error

    def close(self):
        with self._changed:
            if self._is_closed:
                return
            self._is_closed = True
            self._changed.notify_all()
        for step in (self._end.cancel, lambda: self._collector.join(JOIN_LIMIT_S), self._end.close):
            try:
                step()
            except PORT_ERRORS:
                pass  # a port that has gone cannot be closed properly, and need not be

    def _refuse_if_closed(self):
        if self._is_closed:
            raise LinkLostError(
                f"{self.name}: the port must be open, but it was closed; open it again"
            )

    def __enter__(self):
        return self

    def __exit__(self, *reason):
        self.close()


def _carried_codes(format):
    """Return the table that drops bits which a character of this format does not have."""
    mask = (1 << format.data_bits) - 1
    return bytes(code & mask for code in range(256))
