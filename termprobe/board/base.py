"""The interface SimulatedBoard: what can be done to a board, and what is seen and heard of it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple, Protocol

from termprobe.board.generator import Misdrawn
from termprobe.board.wiring import Wiring
from termprobe.profile.model import Profile

BREAK = b""
"""Stands among what is sent for a break condition, which has no code."""
NO_MODIFIERS: frozenset[str] = frozenset()


class Emitted(NamedTuple):
    """What a keyboard or a transmitter sends at one moment."""

    delay_s: float
    """Seconds after the press that it comes of."""
    data: bytes
    """One code or more, or BREAK."""


@dataclass(frozen=True)
class TubePicture:
    """What a person in front of the board sees and hears."""

    rows: tuple[str, ...]
    """One string for each row, each as long as the screen is wide."""
    cursor: tuple[int, int]
    """Row and column; outside the screen where the cursor is not to be seen."""
    bells: int
    """How often the bell has sounded since power-up."""
    misdrawn: tuple[Misdrawn, ...] | None = None
    """What of all this has not the dots that it should have; None where nothing is known of dots.
    """


class SimulatedBoard(Protocol):
    """A board, or a part of one, in this process."""

    @property
    def profile(self) -> Profile:
        """What it should do."""

    @property
    def wiring(self) -> Wiring:
        """Its connections, with its faults."""

    def power_up(self) -> None:
        """Switch off and on: what memories hold is lost, switches keep their positions."""

    def receive(self, data: bytes) -> None:
        """Take bytes from the line."""

    def take_sent(self) -> list[Emitted]:
        """Return all that has been sent since the last call, and forget it."""

    def press(
        self, key_name: str, modifiers: Iterable[str] = NO_MODIFIERS, hold_s: float = 0.0
    ) -> None:
        """Press a key, release it after `hold_s`; raise UsageError where there is no such key."""

    def chord(self, key_names: Sequence[str]) -> None:
        """Press keys one after another, holding them until all are down; raise UsageError."""

    def type(self, text: str) -> None:
        """Press the keys whose codes spell `text`, \\r being RETURN; raise UsageError."""

    def set_option(self, name: str, position: str) -> None:
        """Move the switch `name` to `position`; raise UsageError where it cannot be done."""

    def screen(self) -> TubePicture:
        """Return what is seen and heard now."""
