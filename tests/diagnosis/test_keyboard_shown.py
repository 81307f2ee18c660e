"""How many of the modelled faults of a keyboard its presses can show at all: exact figures.

tests/benchmarks/keyboard.py prints them, with how many are then named.
"""

import collections
from typing import NamedTuple

import pytest

from helpers.key_walks import walked
from termprobe.board.faults.catalogue import keyboard_catalogue
from termprobe.plan.presses import chord_presses, coded_presses
from termprobe.profile.load import load


class Figures(NamedTuple):
    """Of one keyboard: its presses and chords, its faults, and how many each walk shows."""

    presses: int
    chords: int
    faults: int
    once: int
    """By each press once."""
    twice: int
    """By each press twice: a contact that fails now and then shows at the second one."""
    with_chords: int
    """By those and the chords, for shorted diodes."""


FIGURES = {
    "singlebyte-24x80": Figures(137, 0, 437, 424, 436, 436),
    "ecma48-24x80": Figures(142, 63, 539, 459, 475, 538),
}


def unseen(profile, names, presses, times=1):
    """Return those of the faults `names` with which all comes as on a healthy keyboard."""
    healthy = walked(profile, presses=presses, times=times)
    return [n for n in names if walked(profile, n, presses=presses, times=times) == healthy]


@pytest.mark.parametrize("name", FIGURES)
def test_all_faults_can_be_shown_but_a_dead_break_key_which_sends_no_code(name):
    profile = load(name)
    faults = list(keyboard_catalogue(profile))
    presses, chords = coded_presses(profile), chord_presses(profile)
    once = unseen(profile, faults, presses)
    twice = unseen(profile, once, presses, times=2)
    last = unseen(profile, twice, chords)
    counts = [len(faults) - len(left) for left in (once, twice, last)]
    assert Figures(len(presses), len(chords), len(faults), *counts) == FIGURES[name]
    assert last == ["key-matrix/key-dead/break"]
    kinds = collections.Counter(fault.split("/")[1] for fault in set(twice) - set(last))
    assert set(kinds) <= {"diode-shorted"}
    assert {fault.split("/")[1] for fault in set(once) - set(twice)} == {"key-flaky"}
