"""What judging a run has worked out of its records so far. Pure."""

from termprobe.journal.followed import Followed
from termprobe.journal.known_fault import KnownFault
from termprobe.journal.records import Answered, Record, TakenBack
from termprobe.plan.model import Plan
from termprobe.verdict.doubts import Doubts
from termprobe.verdict.given import Gathering
from termprobe.verdict.model import StepVerdict


class SoFar:
    """Takes records in order."""

    def __init__(self, plan: Plan) -> None:
        self._gathering = Gathering(plan)
        self.given = self._gathering.found
        """What was answered."""
        self.doubts = Doubts(plan)
        """Of which steps the last answer may be lost."""
        self.faults: tuple[KnownFault, ...] = ()
        """Those with which the run goes on, in the order in which they were named."""
        self.verdicts: dict[str, StepVerdict] = {}
        """Verdicts of steps by their own answers, put in by who judges; gone with the next one."""

    def take(self, record: Record) -> None:
        """Take the next record."""
        self._gathering.take(record)
        self.doubts.take(record)
        match record:
            case Answered(step=step) | TakenBack(step=step):
                self.verdicts.pop(step, None)
            case KnownFault():
                self.faults += (record,)


Known = Followed[SoFar]
"""What is kept of the records of one run under one plan, from one judging to the next."""


def nothing_known(plan: Plan) -> Known:
    """Return what is kept before the first judging."""
    return Followed(lambda: SoFar(plan))
