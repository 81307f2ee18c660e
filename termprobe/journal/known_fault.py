"""Records of a fault that was named while the run went on, and of what the builder then did."""

from dataclasses import dataclass

from termprobe.journal.records import Record


@dataclass(frozen=True)
class FaultNamed(Record):
    """A fault that explains what failed so far; each kind of it says what was decided."""

    fault: str
    """The one that is taken to be there."""
    alike: tuple[str, ...] = ()
    """Faults that no look of the plan tells from it."""
    title: str = ""
    explains: tuple[str, ...] = ()
    """Ids of the steps that have failed just as it predicts."""


@dataclass(frozen=True)
class KnownFault(FaultNamed):
    """The run goes on with the fault: from here on its screens are expected."""

    kind = "known-fault"
    hidden: tuple[str, ...] = ()
    """Ids of looks that are not asked of eyes, since the fault changes most of the screen."""


@dataclass(frozen=True)
class ToRepair(FaultNamed):
    """The run stops for the repair; what has failed is asked again when it goes on."""

    kind = "to-repair"
