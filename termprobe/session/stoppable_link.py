"""A link that can be broken off from another thread, so that no long send holds the session up."""

import threading

from termprobe.link.base import LineFormat, Link, Received


class StoppedError(Exception):
    """The session ends while something is being sent."""


class StoppableLink:
    """A Link whose every call raises StoppedError once `stop` is set.

    Control lines can still be driven, and the link can be closed.
    """

    def __init__(self, link: Link, stop: threading.Event) -> None:
        self.name: str = link.name
        self.format: LineFormat = link.format
        self.note: str = link.note
        self._link, self._stop = link, stop

    def write(self, data: bytes) -> None:
        """Hand `data` to the link."""
        self._check()
        self._link.write(data)

    def read(self, wait_s: float) -> tuple[Received, ...]:
        """Return what has arrived since the last call; wait at most `wait_s`."""
        self._check()
        return self._link.read(wait_s)

    @property
    def abilities(self) -> frozenset[str]:
        """What the link can do."""
        return self._link.abilities

    def set_format(self, format: LineFormat) -> None:
        """Take another speed and frame."""
        self._check()
        self._link.set_format(format)
        self.format = self._link.format

    def unsent(self) -> int | None:
        """Return how many characters wait to be sent, or None."""
        self._check()
        return self._link.unsent()

    def break_s(self) -> float | None:
        """Return how long the last break lasted that came, or None."""
        self._check()
        return self._link.break_s()

    def counters(self) -> dict[str, int]:
        """Return the errors that the port has counted."""
        self._check()
        return self._link.counters()

    def drain(self, limit_s: float) -> bool:
        """Return whether all bytes have left within `limit_s`."""
        self._check()
        return self._link.drain(limit_s)

    def lines(self) -> dict[str, bool] | None:
        """Return the modem lines that the board drives, or None."""
        self._check()
        return self._link.lines()

    def set_line(self, line: str, on: bool) -> None:
        """Drive `rts`, `dtr` or `break`."""
        self._link.set_line(line, on)

    def close(self) -> None:
        """Let go of the line."""
        self._link.close()

    def _check(self) -> None:
        if self._stop.is_set():
            raise StoppedError
