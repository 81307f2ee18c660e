"""What is said of a fault that the builder goes on with."""

from collections.abc import Iterable, Sequence

from termprobe.folding import first_of
from termprobe.journal.known_fault import FaultNamed
from termprobe.verdict.model import AsOfGoodBoard, AsWithFault, Hidden

WITH_KNOWN_FAULT = "WITH KNOWN FAULT"
STEPS_SHOWN = 6
AS_DRAWN = (
    "Is the screen just as drawn? It is drawn as this board shows it with its known fault, "
    "not as a good board would."
)
"""The question of a look in place of the script's own."""


def because_in_words(because: AsWithFault | AsOfGoodBoard | Hidden) -> str:
    """Return what a known fault has to do with a verdict, in one sentence."""
    match because:
        case AsWithFault(faults):
            return f"as expected with known fault {_named(faults)}"
        case AsOfGoodBoard(faults):
            return (
                f"as on a good board, though known fault {_named(faults)} should have changed it: "
                "it comes and goes, or is another one"
            )
        case Hidden(fault):
            return f"known fault {fault} changes most of this screen; to be asked once repaired"


def _named(faults: Sequence[str]) -> str:
    return " and ".join(faults)


def one_cause(title: str, fault: str, steps: Sequence[str]) -> str:
    """Return the one line for all steps that failed just as one fault predicts."""
    count = f"{len(steps)} steps" if len(steps) > 1 else "1 step"
    return f"{count} just as this predicts: {title} ({fault}): {first_of(steps, STEPS_SHOWN)}"


def of_fault(fault: FaultNamed) -> str:
    """Return a fault as a report names it, with those that nothing tells from it."""
    told = f"{fault.title} ({fault.fault})"
    if fault.alike:
        told += f"; no look tells it from {first_of(fault.alike, STEPS_SHOWN)}"
    return told


def documents(faults: Iterable[FaultNamed]) -> list[dict[str, object]]:
    """Return known faults as the JSON of `report` names them."""
    return [
        {
            "fault": fault.fault,
            "class": [fault.fault, *fault.alike],
            "title": fault.title,
            "explains": list(fault.explains),
        }
        for fault in faults
    ]
