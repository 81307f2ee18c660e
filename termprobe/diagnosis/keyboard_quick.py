"""The fewest presses that show every single fault of the code lines and of the lines of the matrix, and the proof of it."""

from dataclasses import dataclass

from termprobe.diagnosis.cover import smallest_cover
from termprobe.diagnosis.hypotheses import HEALTHY, hypotheses

LINE_KINDS = ("row-open", "column-open", "rows-bridged", "columns-bridged", "rows-swapped", "columns-swapped",
              "shift-dead", "shift-stuck", "control-dead", "control-stuck")
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

    @property
    def proof(self):
        """What was proved, in one sentence."""
        if self.is_smallest:
            return f"{len(self.presses)} presses show all {len(self.faults)} faults of lines; no set of {len(self.presses) - 1} does"
        return f"{len(self.presses)} presses show all {len(self.faults)} faults of lines; at least {self.lower_bound} are needed"


def quick_presses(profile, times=1):
    """Return the Quick set for the keyboard of `profile`; with `times` 2 each fault is shown by two presses where two show it."""
    found = hypotheses(profile)
    healthy = found[0]
    lines = [one for one in found if _is_of_a_line(one.name)]
    tests = {press: sum(1 << number for number, one in enumerate(lines) if one.sends[press] != healthy.sends[press]) for press in healthy.sends}
    cover = smallest_cover(tests, times)
    shown = [one.name for one in lines if one.sends != healthy.sends]
    return Quick(cover.tests, tuple(shown), tuple(one.name for one in lines if one.sends == healthy.sends), cover.is_smallest, cover.lower_bound)


def _is_of_a_line(name):
    if name == HEALTHY:
        return False
    where, kind = name.split("/")[:2]
    return where == "keyboard-code" or where == "key-matrix" and kind in LINE_KINDS
