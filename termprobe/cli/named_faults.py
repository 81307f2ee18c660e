"""The faults that a run names as what may be wrong with its board."""

from termprobe.cli.recorded import Recorded
from termprobe.folding import first_of

NAMED = 6
"""So many faults are named one by one."""


def named_faults(recorded: Recorded) -> tuple[str, ...]:
    """Return the faults of the cause that leads the suspects; none where it explains not all."""
    found = recorded.diagnosis
    if not found.is_explained or not found.suspects:
        return ()
    return found.suspects[0].faults


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
