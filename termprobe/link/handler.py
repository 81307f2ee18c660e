"""The bytes of a port that only pyserial itself can move: its URL handlers, and any port where there is no POSIX."""

import threading

READ_LIMIT_S = 0.05
"""One read waits no longer, so that close() need not break into it (several handlers cannot be broken into)."""
WRITE_LIMIT_S = 5.0
"""Longer than 16 characters take at 50 baud: loop:// compares it with the line's own speed."""
WITHOUT_WRITE_LIMIT = ("rfc2217",)
"""Handlers that refuse a write limit."""
WITHOUT_LINES = ("socket",)
"""Handlers that make up the state of the modem lines."""
LINES = {"cts": "cts", "dsr": "dsr", "dcd": "cd", "ri": "ri"}
DRIVEN = {"rts": "rts", "dtr": "dtr", "break": "break_condition"}


class HandlerEnd:
    """See termprobe/link/ends.py for what an end is."""

    def __init__(self, port, scheme):
        self._port = port
        self._has_lines = scheme not in WITHOUT_LINES
        self._cancelled = threading.Event()
        self.is_stream = scheme in ("socket", "loop")

    def read(self):
        data = b""
        while not data and not self._cancelled.is_set():
            data = self._port.read(1)
        if not data:
            return None
        more = self._port.in_waiting
        return ((data + (self._port.read(more) if more else b""), ""),)

    def write(self, data):
        self._port.write(data)

    def unsent(self):
        return getattr(self._port, "out_waiting", 0)

    def lines(self):
        if not self._has_lines:
            return None
        return {line: bool(getattr(self._port, name)) for line, name in LINES.items()}

    def set_line(self, line, on):
        if line not in DRIVEN or not self._has_lines:
            raise NotImplementedError("this port has no control lines")
        setattr(self._port, DRIVEN[line], on)

    def cancel(self):
        self._cancelled.set()

    def close(self):
        self._port.close()
