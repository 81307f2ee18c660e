"""The fewest presses that show every single fault of the code lines and of the lines of the matrix, or tell them apart, and the proof."""

from dataclasses import dataclass

from termprobe.diagnosis.cover import smallest_cover, smallest_separation
from termprobe.diagnosis.key_hypotheses import HEALTHY, hypotheses

LINE_KINDS = (
    "row-open",
    "column-open",
    "rows-bridged",
    "columns-bridged",
    "rows-swapped",
    "columns-swapped",
    "shift-dead",
    "shift-stuck",
    "control-dead",
    "control-stuck",
)
"""Faults of the matrix that are not of one key: a key by itself shows only when it is pressed."""


@dataclass(frozen=True)
class Quick:
    """A smallest set of presses."""

    presses: tuple[str, ...]
    """Ids, in the order in which the keyboard's keys are listed."""
    faults: tuple[str, ...]
    """Faults of lines that the presses show, all that any press shows."""
    unseen: tuple[str, ...]
    """Faults of lines that no single press shows."""
    is_smallest: bool
    """The search has proved that fewer presses would miss a fault."""
    lower_bound: int
    does: str = "show all"

    @property
    def proof(self):
        """What was proved, in one sentence."""
        what = f"{len(self.presses)} presses {self.does} {len(self.faults)} faults of lines"
        if self.is_smallest:
            return f"{what}; no set of {len(self.presses) - 1} does"
        return f"{what}; at least {self.lower_bound} are needed"


def quick_presses(profile):
    """Return the Quick set for the keyboard of `profile`."""
    healthy, lines = _lines(profile)
    tests = {
        press: sum(
            1 << number
            for number, one in enumerate(lines)
            if one.sends[press] != healthy.sends[press]
        )
        for press in healthy.sends
    }
    return _quick(smallest_cover(tests), healthy, lines)


def telling_presses(profile):
    """Return the Quick set whose presses tell the faults of lines apart, from one another and from a healthy keyboard.

    Faults that no press tells apart stay together. The pairs are many: this takes seconds, and the bound may stay below.
    """
    healthy, lines = _lines(profile)
    numbers = {}
    outcomes = {
        press: [numbers.setdefault(one.sends[press], len(numbers)) for one in (healthy, *lines)]
        for press in healthy.sends
    }
    return _quick(smallest_separation(outcomes), healthy, lines, "tell apart the")


def _quick(cover, healthy, lines, does="show all"):
    shown = tuple(one.name for one in lines if one.sends != healthy.sends)
    unseen = tuple(one.name for one in lines if one.sends == healthy.sends)
    return Quick(cover.tests, shown, unseen, cover.is_smallest, cover.lower_bound, does)


def _lines(profile):
    found = hypotheses(profile)
    return found[0], [one for one in found if _is_of_a_line(one.name)]


def _is_of_a_line(name):
    if name == HEALTHY:
        return False
    where, kind = name.split("/")[:2]
    return where == "keyboard-code" or where == "key-matrix" and kind in LINE_KINDS
