"""The interface End: a way to the bytes of an opened port. One file an end: tcp, tty, handler.

An end throws whatever the system throws; `trouble.py` translates it for PortLink.
"""

from typing import NamedTuple, Protocol

from termprobe.link.base import LineFormat

NO_CONTROL_LINES = "this port has no control lines"


class Piece(NamedTuple):
    """Characters that came together."""

    data: bytes
    mark: str = ""
    """Empty where they came well; else what the port says of them."""


class End(Protocol):
    """What a PortLink needs of an opened port."""

    is_stream: bool
    """Characters travel instead of line frames."""

    def read(self) -> tuple[Piece, ...] | None:
        """Return what has come, once something has; None after cancel()."""

    def write(self, data: bytes) -> None:
        """Return when all of `data` is taken; raise queue.Full where the line is held too long."""

    @property
    def abilities(self) -> frozenset[str]:
        """Those of Link.abilities that this port has."""

    def set_format(self, format: LineFormat) -> None:
        """Set speed and frame; not called where is_stream. Raise ValueError where it refuses."""

    def counters(self) -> dict[str, int]:
        """Return errors by kind as the driver counts them, from any number; empty without any."""

    def unsent(self) -> int:
        """Return how many characters have been taken and not yet sent, as far as can be told."""

    def lines(self) -> dict[str, bool] | None:
        """Return the modem lines, as Link.lines does."""

    def set_line(self, line: str, on: bool) -> None:
        """Drive a line, as Link.set_line does; raise NotImplementedError where there is none."""

    def cancel(self) -> None:
        """End every wait."""

    def close(self) -> None:
        """Let go of the port."""
