"""How a run has gone by its records: answers, cautions, options and what comes first. Pure."""

from collections.abc import Iterable, Sequence

from termprobe.journal.followed import Followed
from termprobe.journal.records import Answered, CautionRead, Record, Resumed, TakenBack
from termprobe.journal.standing import StandingByRecords
from termprobe.plan.model import Plan
from termprobe.verdict.so_far import nothing_known


class Trail:
    """Takes records in order."""

    def __init__(self, plan: Plan) -> None:
        self._known = plan.index
        self.standing = StandingByRecords()
        self.acknowledged: set[str] = set()
        """The text of each caution read in this sitting."""
        self.answered: list[str] = []
        """The steps answered and not taken back, in order."""

    def take(self, record: Record) -> None:
        """Take the next record."""
        self.standing.take(record)
        match record:
            case Resumed():
                self.acknowledged.clear()
            case CautionRead(step=step_id, text=text) if step_id in self._known:
                self.acknowledged.add(text)
            case Answered(step=step_id, amends=False) if step_id in self._known:
                self.answered.append(step_id)
            case TakenBack(step=step_id):
                self.answered = without(self.answered, step_id)


def without(trail: Iterable[str], step_id: str) -> list[str]:
    """Return the steps of a trail but that one, in order."""
    return [other for other in trail if other != step_id]


class KeptOfRun:
    """What is kept of the records of one run under one plan, from one course to the next."""

    def __init__(self, plan: Plan) -> None:
        self.judged = nothing_known(plan)
        self.trail = Followed(lambda: Trail(plan))

    def doubtful(self, records: Sequence[Record]) -> frozenset[str]:
        """Return the ids of the steps whose last answer may be lost."""
        return self.judged.after(records).doubts.steps
