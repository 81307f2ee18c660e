"""The faults that a run names as what may be wrong with its board."""

from termprobe.cli.recorded import Recorded
from termprobe.diagnosis.key_conclusion import conclude
from termprobe.diagnosis.key_outcomes import outcomes_of
from termprobe.diagnosis.replay import faults_that_show
from termprobe.folding import first_of

NAMED = 6
"""So many faults are named one by one."""


def named_faults(recorded: Recorded) -> tuple[str, ...]:
    """Return the names of the faults that would show its screens, or explain its presses.

    None is named twice.
    """
    records = recorded.recording.records
    shown = faults_that_show(recorded.profile, recorded.plan, records)
    pressed: list[str] = []
    if recorded.profile.keyboard is not None:
        for suspect in conclude(recorded.profile, outcomes_of(records)).suspects:
            pressed += suspect.faults
    return tuple(dict.fromkeys((*shown, *pressed)))


def finding(fault: str, named: tuple[str, ...]) -> str:
    """Return in a sentence what a failed board with `fault` says of it by the faults `named`."""
    if not named:
        return "The board failed, as it must, but no fault is named: none explains what was seen."
    others = tuple(name for name in named if name != fault)
    if fault not in named:
        return f"The board failed, as it must, but other faults are named: {_listed(others)}."
    if not others:
        return f"The fault was found: {fault}. No other that is modelled shows what was seen."
    return f"The fault was found: {fault} is named, with {_listed(others)}."


def _listed(names: tuple[str, ...]) -> str:
    return first_of(names, NAMED)
