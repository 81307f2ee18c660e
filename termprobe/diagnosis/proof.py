"""What proves that a fault makes no difference: rules about the tables of a wiring."""

from collections.abc import Callable
from typing import NamedTuple

from termprobe.board.wiring import Wiring
from termprobe.profile.model import Profile

COUNTING = "counting "
"""Begins the name of the part that says how a counter counts."""


class Rewired(NamedTuple):
    """The wiring of a board with a fault, beside that of a good one."""

    profile: Profile
    good: Wiring
    faulty: Wiring

    @property
    def parts(self) -> frozenset[str]:
        """The names of the parts of the wiring that the fault changes."""
        good, faulty = _parts(self.good), _parts(self.faulty)
        return frozenset(name for name, part in faulty.items() if part != good[name])


def _parts(wiring: Wiring) -> dict[str, object]:
    """Return the parts of a wiring by name; each bus is one, and so is how each counter counts."""
    parts = {name: part for name, part in vars(wiring).items() if name not in ("buses", "counting")}
    counting = {COUNTING + name: counts for name, counts in wiring.counting.items()}
    return parts | wiring.buses | counting


class Proof(NamedTuple):
    """Why faults of some parts make no difference."""

    parts: frozenset[str]
    """It speaks of faults that change these, some of them or all, and nothing else."""
    holds: Callable[[Rewired], bool]
    """Whether a board with the fault does at every step what a good one does."""
    why: str
    """In words."""
