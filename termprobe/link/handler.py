"""The bytes of a port that only pyserial itself can move.

These are its URL handlers, and any port where there is no POSIX.
"""

import threading

import serial

from termprobe.link.base import LineFormat
from termprobe.link.end import NO_CONTROL_LINES, Piece
from termprobe.link.settings import line_settings

READ_LIMIT_S = 0.05
"""One read waits no longer, so that close() need not break into it (several handlers cannot be)."""
WRITE_LIMIT_S = 5.0
"""Longer than 16 characters take at 50 baud: loop:// compares it with the line's own speed."""
WITHOUT_WRITE_LIMIT = ("rfc2217",)
"""Handlers that refuse a write limit."""
WITHOUT_LINES = ("socket",)
"""Handlers that make up the state of the modem lines."""
STREAMS = ("socket", "loop")
"""Handlers that carry characters instead of line frames."""


def write_limit_s(scheme: str) -> float | None:
    """Return how long a write to a port of `scheme` may wait; None where it takes no limit."""
    return None if scheme in WITHOUT_WRITE_LIMIT else WRITE_LIMIT_S


class HandlerEnd:
    """The End of a port that pyserial has opened."""

    def __init__(self, port: serial.Serial, scheme: str) -> None:
        self._port = port
        self._has_lines = scheme not in WITHOUT_LINES
        self._cancelled = threading.Event()
        self.is_stream = scheme in STREAMS
        self._counts_unsent = hasattr(port, "out_waiting")  # several handlers do not

    def read(self) -> tuple[Piece, ...] | None:
        data = b""
        while not data and not self._cancelled.is_set():
            data = self._port.read(1)
        if not data:
            return None
        more = self._port.in_waiting
        if more:
            data += self._port.read(more)
        return (Piece(data),)

    def write(self, data: bytes) -> None:
        self._port.write(data)

    @property
    def abilities(self) -> frozenset[str]:
        found = set()
        if self._has_lines:
            found.add("lines")
        if not self.is_stream:
            found |= {"frames", "break"}
            if self._counts_unsent:
                found.add("unsent")
        return frozenset(found)

    def set_format(self, format: LineFormat) -> None:
        self._port.apply_settings(line_settings(format))

    def counters(self) -> dict[str, int]:
        return {}

    def unsent(self) -> int:
        if self._counts_unsent:
            return self._port.out_waiting
        return 0

    def lines(self) -> dict[str, bool] | None:
        if not self._has_lines:
            return None
        port = self._port
        return {
            "cts": bool(port.cts),
            "dsr": bool(port.dsr),
            "dcd": bool(port.cd),
            "ri": bool(port.ri),
        }

    def set_line(self, line: str, on: bool) -> None:
        if not self._has_lines:
            raise NotImplementedError(NO_CONTROL_LINES)
        match line:
            case "rts":
                self._port.rts = on
            case "dtr":
                self._port.dtr = on
            case "break" if not self.is_stream:
                self._port.break_condition = on
            case _:
                raise NotImplementedError(NO_CONTROL_LINES)

    def cancel(self) -> None:
        self._cancelled.set()

    def close(self) -> None:
        self._port.close()
