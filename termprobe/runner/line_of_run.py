"""The line of a run: what its board demands, and how checks use it, all kept in the run file."""

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass
from typing import Protocol, TypeVar

from termprobe.clock import Clock
from termprobe.link.base import LineFormat, Link, Received

_T = TypeVar("_T")


@dataclass(frozen=True)
class Demands:
    """What the board demands of whoever sends to it."""

    gap_s: float = 0.0
    """Pause after each character."""
    handshake: str = "none"
    """none, xon-xoff or rts-cts."""


class OnLine(Protocol):
    """What a Run has of its line."""

    clock: Clock

    @property
    def link_format(self) -> LineFormat:
        """Speed and frame."""

    def on_link(self, action: Callable[[Link], _T]) -> _T:
        """Return what `action` makes of the link; where the line is lost, that is written down."""

    def send(self, data: bytes) -> None:
        """Send bytes that are none of a step's groups."""

    def poll_events(self, wait_s: float = 0.0) -> Sequence[Received]:
        """Return what has come."""


class LineOfRun:
    """A LineInUse of termprobe/line/line_in_use.py."""

    def __init__(self, run: OnLine) -> None:
        self.clock, self._run = run.clock, run

    @property
    def link_format(self) -> LineFormat:
        """Speed and frame."""
        return self._run.link_format

    def send(self, data: bytes) -> None:
        """Send `data` at the speed of the line."""
        self._run.send(data)

    def poll_events(self, wait_s: float = 0.0) -> Sequence[Received]:
        """Return what has come; wait at most `wait_s` for the first."""
        return self._run.poll_events(wait_s)

    def lines(self) -> dict[str, bool] | None:
        """Return the control lines that the board drives, None where the port has none."""
        return self._run.on_link(lambda link: link.lines())

    def set_format(self, format: LineFormat) -> None:
        """Take another speed and frame; what is sent keeps the pace of the run's own."""
        self._run.on_link(lambda link: link.set_format(format))

    @property
    def abilities(self) -> Collection[str]:
        """What the link can do."""
        return self._run.on_link(lambda link: link.abilities)

    def set_line(self, line: str, on: bool) -> None:
        """Drive `rts`, `dtr` or `break`."""
        self._run.on_link(lambda link: link.set_line(line, on))
