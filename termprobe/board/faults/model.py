"""The interface Fault: a name and a title for people, and an edit of the wiring."""

from collections.abc import Callable
from dataclasses import dataclass

from termprobe.board.wiring import Wiring


@dataclass(frozen=True)
class Fault:
    """One modelled defect."""

    name: str
    """WHERE/KIND/LINES/VALUE, as `bank-1-data/stuck/3/0`."""
    title: str
    """What is wrong, for whoever holds the soldering iron: `data line 3 of RAM bank 1 always reads 0`."""
    block: str
    """The part of the circuit: the name's first word."""
    apply: Callable[[Wiring], None]
    """Edits the wiring; where several faults are applied the later one sits nearer the output."""


def make(name, title, edit):
    """Return the Fault `name`, whose block is the name's first word."""
    return Fault(name, title, name.split("/")[0], edit)
