"""A line as checks use it, and what a check comes back with."""

from collections.abc import Collection, Sequence
from typing import NamedTuple, Protocol

from termprobe.clock import Clock
from termprobe.link.base import LineFormat, Received


class LineInUse(Protocol):
    """A line, as checks use it; a Run is such, and keeps all that goes over it."""

    clock: Clock

    @property
    def link_format(self) -> LineFormat:
        """Speed and frame."""

    def send(self, data: bytes) -> None:
        """Send `data` at the speed of the line."""

    def poll_events(self, wait_s: float = 0.0) -> Sequence[Received]:
        """Return what has come; wait at most `wait_s` for the first."""

    def lines(self) -> dict[str, bool] | None:
        """Return the control lines that the other side drives; None where they cannot be read."""

    def set_line(self, line: str, on: bool) -> None:
        """Drive `rts`, `dtr` or `break`."""

    def set_format(self, format: LineFormat) -> None:
        """Take another speed and frame; `link_format` stays what it was."""

    @property
    def abilities(self) -> Collection[str]:
        """What the line can do, by the words of link/base.py."""


class Checked(NamedTuple):
    """What a check found."""

    is_right: bool | None
    """None where it cannot be told."""
    said: str
