"""The interface Link, and what travels over it."""

from collections.abc import Collection
from dataclasses import dataclass
from typing import Protocol

SIMULATED = "sim:"
"""Ports that begin so are boards simulated in this process."""


def is_simulated(port: str) -> bool:
    """Return whether `port` names a simulated board."""
    return port.startswith(SIMULATED)


@dataclass(frozen=True)
class LineFormat:
    """Speed and frame of an asynchronous serial line."""

    speed_baud: int = 9600
    data_bits: int = 8
    parity: str = "none"
    """none, even, odd, mark or space"""
    stop_bits: int = 1

    @property
    def frame_bits(self) -> int:
        """Bits on the line for one character: start, data, parity, stop."""
        return 1 + self.data_bits + (self.parity != "none") + self.stop_bits

    @property
    def character_s(self) -> float:
        """Seconds that one character takes."""
        return self.frame_bits / self.speed_baud

    def __str__(self) -> str:
        return f"{self.speed_baud} baud {self.data_bits}{self.parity[0].upper()}{self.stop_bits}"


@dataclass(frozen=True)
class Received:
    """What came over the line at one moment."""

    at_s: float
    """By the clock that the link was given."""
    data: bytes
    error: str = ""
    """Empty, or parity, framing, overrun, break: what the port reports of these bytes."""


ABILITIES = {
    "frames": "set speed and frame of the line",
    "lines": "drive RTS and DTR, and read CTS, DSR, DCD and RI",
    "break": "send a break",
    "marks": "tell characters with wrong parity or frame, or a break, from good ones",
    "break-length": "tell how long a break was that came",
    "unsent": "tell how many characters wait to be sent",
    "counters": "count the errors of the line",
}
"""What some links can do and others cannot, in words."""


def unable(abilities: Collection[str], of: Collection[str] = tuple(ABILITIES)) -> str:
    """Return `cannot send a break; cannot ...`: what a link with these abilities cannot do.

    Only those named in `of` are told; it is empty where none of these is lacking.
    """
    lacking = (words for name, words in ABILITIES.items() if name in of and name not in abilities)
    return "; ".join(f"cannot {words}" for words in lacking)


class Link(Protocol):
    """A byte line to a board. Every call raises a LinkError (termprobe/errors.py), nothing else."""

    name: str
    """What the user called it: `/dev/ttyUSB0`, `sim:`."""
    format: LineFormat
    note: str
    """One line where the link is not what was asked for, to be kept with the run; else empty."""

    def write(self, data: bytes) -> None:
        """Hand `data` to the line, in order; return when it is taken, not when it has left."""

    def read(self, wait_s: float) -> tuple[Received, ...]:
        """Return what has arrived since the last call; wait at most `wait_s` where nothing has."""

    @property
    def abilities(self) -> frozenset[str]:
        """Those of ABILITIES that it has. Where it has not, the call is refused, or tells None."""

    def set_format(self, format: LineFormat) -> None:
        """Take another speed and frame from now on.

        Where the link cannot set frames, the sender's pace alone follows, and bits are dropped that
        no character of `format` has. Raise LinkSettingsError where the port refuses; it then has
        the format that it had.
        """

    def unsent(self) -> int | None:
        """Return how many characters wait to be sent; None where that cannot be told."""

    def break_s(self) -> float | None:
        """Return how long the last break lasted, or lasts until now, that came over the line.

        It is 0 where none has come, and None where that cannot be told.
        """

    def counters(self) -> dict[str, int]:
        """Return how many errors of each kind the port has counted since it was opened.

        Kinds are parity, framing, overrun and break. It is empty where it counts none.
        """

    def drain(self, limit_s: float) -> bool:
        """Return True once all bytes have left, False where they have not within `limit_s`."""

    def lines(self) -> dict[str, bool] | None:
        """Return the modem lines that the board drives (cts, dsr, dcd, ri), None without any."""

    def set_line(self, line: str, on: bool) -> None:
        """Drive `rts`, `dtr` or `break`."""

    def close(self) -> None:
        """Let go of the line without waiting for the board; may be called twice."""
