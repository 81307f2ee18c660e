"""What could be wrong with a board, each with how common it is against the others."""

from typing import NamedTuple

from termprobe.board.faults.bus import STUCK_LEVELS
from termprobe.board.faults.model import Fault
from termprobe.board.wiring import DATA_LINES
from termprobe.diagnosis.fault_names import parsed
from termprobe.diagnosis.key_hypothesis import HEALTHY, WEIGHT_OF_HEALTHY, WEIGHTS, Hypothesis
from termprobe.profile.model import Profile


class Cause(NamedTuple):
    """One thing that could be wrong, or nothing."""

    name: str
    """A fault's name, or `host/...` and `profile/...` for causes outside the board."""
    title: str
    block: str
    weight: float
    """How common it is, with all that are `alike`."""
    alike: tuple[str, ...] = ()
    """Names of others of which no look that was asked shows anything else."""


NO_CAUSE = Cause(HEALTHY, "nothing is wrong", "", WEIGHT_OF_HEALTHY)


class Weighed(NamedTuple):
    """How common a kind of fault is, and by what it is known."""

    weight: float
    source: str


_LINES = "builders' reports: open and stuck lines before bridges, exchanged lines last"
_RARE = "judgement: one of many faults of a decoder of a few gates"
_PART = "judgement: a part of a function hangs on one gate or one joint"
OF_DISPLAY = {
    "bank-0-data/stuck": Weighed(4.0, "repair reports: display RAM is the part that fails most"),
    "bank-1-data/stuck": Weighed(4.0, "repair reports: display RAM is the part that fails most"),
    "stuck": Weighed(WEIGHTS["stuck"], _LINES),
    "bridged": Weighed(WEIGHTS["bridged"], _LINES),
    "swapped": Weighed(WEIGHTS["swapped"], _LINES),
    "carry-lost": Weighed(1.0, _PART),
    "borrow-lost": Weighed(1.0, _PART),
    "missing": Weighed(WEIGHTS["stuck"], _LINES),
    "decoder/dead": Weighed(1.0, _PART),
    "decoder/also-written": Weighed(0.3, _RARE),
    "decoder/acts-as": Weighed(0.05, _RARE),
    "decoder/swapped": Weighed(0.05, _RARE),
    "baud/ratio": Weighed(WEIGHTS["ratio"], "builders' reports: a divider or a strap"),
}
"""By WHERE/KIND, or by KIND alone for all others of that kind. All numbers are judgements from
memory; the sources give the order."""
OF_OTHERS = Weighed(1.0, _PART)
ALL_CELLS = 4.0
"""Weight of all bits of single RAM cells together: repair reports know them, less often than lines
of the same RAM."""


def cause_of(fault: Fault) -> Cause:
    """Return the Cause that the board has `fault`."""
    return Cause(fault.name, fault.title, fault.block, weight_of(fault.name).weight)


def weight_of(name: str) -> Weighed:
    """Return how common the fault `name` is, if it is none of a single cell."""
    where, kind, *_ = parsed(name)
    return OF_DISPLAY.get(f"{where}/{kind}") or OF_DISPLAY.get(kind) or OF_OTHERS


def cause_of_cell(fault: Fault, profile: Profile, alike: tuple[str, ...] = ()) -> Cause:
    """Return the Cause that a bit of a RAM cell is stuck: that of `fault`, or one of `alike`."""
    display = profile.display
    bits = display.rows * display.columns * DATA_LINES * len(STUCK_LEVELS)
    weight = ALL_CELLS * (1 + len(alike)) / bits
    return Cause(fault.name, fault.title, fault.block, weight, alike)


def cause_of_hypothesis(one: Hypothesis) -> Cause:
    """Return what a Hypothesis of the keyboard says is wrong."""
    return Cause(one.name, one.title, one.block, one.weight)
