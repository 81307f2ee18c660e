"""Steps whose answer may be among the records that a damaged run file has lost. Pure.

No answer is written before its step was begun. One lost record can therefore hold an answer to the
step begun last and to no other; of several in a row, or where it is not known which step was begun
last, any step may have been answered. The counts of answers in the records behind them tell where
none is lost.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from termprobe.journal.added import Added
from termprobe.journal.lost import LostRecords
from termprobe.journal.records import (
    Answered,
    Arrived,
    CountingRecord,
    Record,
    Resumed,
    Sent,
    StepBegun,
    TakenBack,
)
from termprobe.plan.model import KeyPress, Plan


def has_lost(records: Iterable[Record]) -> bool:
    """Return whether any record is missing."""
    return any(isinstance(record, LostRecords) for record in records)


def is_text_lost(plan: Plan, records: Sequence[Record]) -> bool:
    """Return whether a text may be lost that had steps of which `plan` knows nothing."""
    known = plan.index.keys() | plan.earlier.gone
    answered = {record.step for record in records if isinstance(record, Answered)}
    return has_lost(records) and not answered <= known


@dataclass
class Doubts:
    """Takes records in order, and finds the steps whose last answer may be lost."""

    plan: Plan
    suspects: list[set[str]] = field(default_factory=list)
    """For each gap the steps to which it may hold an answer that counts."""
    _pending: list[set[str]] = field(default_factory=list)
    """Those of gaps of which no count has told yet whether an answer is lost."""
    _begun: set[str] = field(default_factory=set)
    """The step begun last, or each that it may be."""
    _answers: int | None = 0
    """How many answers there are, lost ones included; None where that is not known."""

    @property
    def steps(self) -> frozenset[str]:
        """The ids of the steps."""
        return frozenset().union(*self.suspects)

    @property
    def has_lost(self) -> bool:
        """Whether any record is missing."""
        return bool(self.suspects)

    def take(self, record: Record) -> None:
        """Take the next record."""
        match record:
            case LostRecords(records=count):
                self._lose(count)
            case Sent(step=step) | Arrived(step=step) if step is not None:
                self._begun = {step}
            case Answered(step=step):
                self._answer(step)
            case TakenBack(step=step):
                self._settle(step)
            case Resumed(answers=answers) | Added(answers=answers):
                self._pending = []  # whoever goes on counts only what can be read
                self._answers = answers
            case CountingRecord(answers=answers):
                self._count(answers)
        if isinstance(record, StepBegun):
            self._begun = {record.step}

    def _lose(self, count: int | None) -> None:
        every = set(self.plan.index)
        suspects = every
        if count == 1:
            suspects = self._begun & every
        gap = set(suspects)
        self.suspects.append(gap)
        self._pending.append(gap)
        self._begun = every

    def _answer(self, step: str) -> None:
        """Note an answer that is there.

        It counts whatever was lost before, but for a press: all presses tell of its contact.
        """
        is_press = step in self.plan.index and isinstance(self.plan.step(step), KeyPress)
        self._settle("" if is_press else step)

    def _settle(self, step: str) -> None:
        for gap in self.suspects:
            gap.discard(step)
        if self._answers is not None:
            self._answers += 1

    def _count(self, answers: int | None) -> None:
        if answers is not None and answers == self._answers:
            for gap in self._pending:
                gap.clear()
        self._pending = []
        self._answers = answers
