"""The interface Fault: a name and a title for people, and an edit of the wiring."""

from collections.abc import Callable
from dataclasses import dataclass

from termprobe.board.wiring import Wiring

Edit = Callable[[Wiring], None]


@dataclass(frozen=True)
class Fault:
    """One modelled defect."""

    name: str
    """WHERE/KIND/LINES/VALUE, as `bank-1-data/stuck/3/0`."""
    title: str
    """What is wrong, for who holds the iron: `data line 3 of RAM bank 1 is stuck at 0`."""
    block: str
    """The part of the circuit: the name's first word."""
    apply: Edit
    """Edits the wiring; of several faults the one applied later sits nearer the output."""


def make(name: str, title: str, edit: Edit) -> Fault:
    """Return the Fault `name`."""
    return Fault(name, title, block_of(name), edit)


def block_of(name: str) -> str:
    """Return the block of the fault `name`: its first word."""
    return name.split("/")[0]
