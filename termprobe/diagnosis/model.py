"""What is concluded of a board: the record that commands and reports show."""

from dataclasses import dataclass

from termprobe.diagnosis.key_conclusion import Suspect
from termprobe.diagnosis.pairs import SuspectPair
from termprobe.diagnosis.probing import Probing
from termprobe.diagnosis.ranking import BlockShare
from termprobe.diagnosis.unmodelled import Unmodelled
from termprobe.diagnosis.why_next import WhyNext


@dataclass(frozen=True)
class Diagnosis:
    """What the answers of a run, or a symptom, say of a board."""

    verdict: str
    """Of the run; of a symptom fail or pass."""
    is_explained: bool
    """A single cause accounts for all that was answered."""
    suspects: tuple[Suspect, ...] = ()
    """Best first."""
    blocks: tuple[BlockShare, ...] = ()
    """Best first."""
    next: str | None = None
    """Id of the step that would tell most; None where none would tell anything."""
    probes: tuple[Probing, ...] = ()
    """What to do about the first suspect."""
    pairs: tuple[SuspectPair, ...] = ()
    """Where no single cause accounts for the run: two that do it better together, best first."""
    why_next: WhyNext = WhyNext.TELLS_MOST
    probes_of_each: tuple[tuple[Probing, ...], ...] = ()
    """What to do about each suspect, in their order; empty where only the first is told of."""
    unmodelled: tuple[Unmodelled, ...] = ()
    """What was noticed that no simulated fault explains."""
