"""What all parts play: the script, and the boards with each fault."""

import functools

from helpers.dictionaries import of_acceptance, shown_faults
from helpers.scripts import SINGLE, acceptance
from helpers.virtual_builders import looks_to_play
from termprobe.board.faults.catalogue import catalogue
from termprobe.diagnosis.diagnose import diagnose
from termprobe.verdict.judge import judge

PROFILE = SINGLE


@functools.cache
def plan():
    """Return the plan that is played."""
    return acceptance()


def dictionary():
    """Return the fault dictionary of the plan."""
    return of_acceptance()


@functools.cache
def faults():
    """Return the catalogue of the board, by name."""
    return catalogue(PROFILE)


def detectable():
    """Return the names of all faults that a look shows."""
    return shown_faults(dictionary())


@functools.cache
def looks():
    """Return every look that can be played, by its id."""
    return {step.id: step for step in looks_to_play(plan())}


def looks_that_show(name):
    """Return the ids of the looks that differ with the fault `name`, each played alone."""
    shown = dictionary().faults[name].alone
    pairs = zip(dictionary().looks, shown, strict=True)
    return [look for look, sight in pairs if sight.picture]


def concluded(records):
    """Return the Diagnosis of a run."""
    return diagnose(PROFILE, plan(), records, judge(plan(), records), dictionary())
