"""Records of a soak: how it is made, and how far it had come."""

from dataclasses import dataclass
from typing import ClassVar

from termprobe.journal.records import Record

SOAK = "soak"
"""Stands in the header of its run file where others have the id of a script."""


@dataclass(frozen=True)
class SoakBegun(Record):
    """A soak begins: all that its text is made of."""

    kind = "soak-begun"
    speed_baud: int
    data_bits: int
    parity: str
    stop_bits: int
    handshake: str
    is_printable: bool
    """Whether characters alone are sent, and no control codes."""
    seed: int
    characters: int | None = None
    """How many are to be sent; None where it goes by time."""
    seconds: float | None = None
    is_of_screen: bool = False
    """Whether the screen is compared, by a dump or by eyes, and not what comes back."""
    look_characters: int | None = None
    """After so many a person is asked to look; None where not by these."""
    look_seconds: float | None = None

    @property
    def has_looks(self) -> bool:
        """Whether a person looks now and then."""
        return self.look_characters is not None or self.look_seconds is not None


@dataclass(frozen=True)
class SoakTold(Record):
    """How far the soak is; what is counted counts from its beginning, all sittings together."""

    kind = "soak-told"
    is_synced: ClassVar[bool] = False
    block: int
    """Of the text the first block that has not been sent."""
    sent: int
    received: int
    seconds: float
    """Spent so far."""
    errors: tuple[tuple[str, int], ...] = ()
    """(kind, how many characters)"""
    bits: tuple[tuple[int, int], ...] = ()
    """(data bit of changed characters, how often it came other than it was sent)"""
