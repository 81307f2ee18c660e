"""What is said of a fault that the builder goes on with."""

from collections.abc import Iterable, Sequence

from termprobe.folding import first_of, folded
from termprobe.journal.known_fault import FaultNamed
from termprobe.verdict.model import AsOfGoodBoard, AsWithFault, Hidden

WIDTH = 80
STEPS_SHOWN = 6


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


def of_fault(fault: FaultNamed) -> str:
    """Return a fault as a report names it, with those that nothing tells from it."""
    told = f"{fault.title} ({fault.fault})"
    if fault.alike:
        told += f"; no look tells it from {first_of(fault.alike, STEPS_SHOWN)}"
    return told


def named_fault_lines(title: str, alike: Sequence[str], told: Iterable[str]) -> list[str]:
    """Return what is said of a fault once it is named, as lines of a plain page.

    `told` is what to probe, a sentence each.
    """
    lines = folded("", f"One fault explains all that has differed: {title}.", WIDTH)
    if alike:
        lines += folded("  ", f"No look tells it from {first_of(alike, STEPS_SHOWN)}.", WIDTH)
    for sentence in told:
        lines += folded("  ", sentence, WIDTH)
    return lines
