"""A fault that is named while a run goes on: what can be done about it, and what it changes.

Whoever makes a run hands it a Foresight; without one no fault is ever named.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from termprobe.journal.kept import ShownWithFaults
from termprobe.journal.known_fault import KnownFault, ToRepair
from termprobe.journal.records import Record
from termprobe.plan.model import ScreenStep, Step
from termprobe.runner.course import Course
from termprobe.runner.due import StepDue
from termprobe.verdict.known_fault import expected_with, known_faults
from termprobe.verdict.model import FAIL, PASS, RunVerdict

REPAIR, CARRY_ON, ASK_ON = "repair", "carry on", "ask on"
"""What can be done: stop for the repair, go on with the fault known, or ask as if none was named.
"""


@dataclass(frozen=True)
class NamedFault:
    """A fault that explains all that failed so far."""

    fault: str
    alike: tuple[str, ...]
    """Faults that no look tells from it."""
    title: str
    explains: tuple[str, ...]
    """Ids of the steps that have failed."""
    hidden: tuple[str, ...] = ()
    """Ids of looks of which it changes most, not to be asked of eyes."""
    told: tuple[str, ...] = ()
    """What to probe and where, a sentence each."""
    is_foreseen: bool = True
    """Whether it can be told beforehand what a board with it shows."""

    def known(self, is_seen_by_eyes: bool) -> KnownFault:
        """Return the record with which a run goes on.

        A program is asked the hidden looks too, if there is something to compare them with.
        """
        hidden = self.hidden if is_seen_by_eyes or not self.is_foreseen else ()
        return KnownFault(self.fault, self.alike, self.title, self.explains, hidden)

    def to_repair(self) -> ToRepair:
        """Return the record with which it stops for the repair."""
        return ToRepair(self.fault, self.alike, self.title, self.explains)


@dataclass(frozen=True)
class Prospect:
    """What can be said after a look has failed."""

    named: NamedFault | None = None
    next: str | None = None
    """Id of the look that would help most to name a fault."""
    answers: int = 0
    """How many answers that look had when this was worked out. Where it had some, the cause hangs
    on them, and it is asked once more."""


NO_PROSPECT = Prospect()


class Foresight(Protocol):
    """What knows how boards with faults behave."""

    def prospect(self, records: Sequence[Record], verdict: RunVerdict) -> Prospect:
        """Return what can be said of the cause, by all that was answered."""

    def shown(
        self, records: Sequence[Record], step: Step, faults: Sequence[str]
    ) -> ShownWithFaults | None:
        """Return what a board with `faults` shows for `step`, which was just sent.

        None means that it is what the plan expects.
        """


Decide = Callable[[NamedFault], str]
"""Returns REPAIR, CARRY_ON or ASK_ON."""


def ask_on(named: NamedFault) -> str:
    """Decide to go on asking, as if no fault was named."""
    return ASK_ON


def carry_on(named: NamedFault) -> str:
    """Decide to go on with the fault."""
    return CARRY_ON


class Expectations:
    """What is expected of the steps that were sent where known faults change it."""

    def __init__(self, foresight: Foresight | None) -> None:
        self._foresight = foresight
        self._shown: dict[str, ShownWithFaults] = {}

    def foresee(self, records: Sequence[Record], step: Step) -> None:
        """Take note of what the board must show for `step`, the last that was sent."""
        self._shown.pop(step.id, None)
        faults = [fault.fault for fault in known_faults(records)]
        if self._foresight is None or not faults:
            return
        shown = self._foresight.shown(records, step, faults)
        if shown is not None:
            self._shown[step.id] = shown

    def against(self, step: Step) -> ShownWithFaults | None:
        """Return what `step` is compared with in place of what the plan expects; None for that."""
        return self._shown.get(step.id)

    def changed(self, step: Step) -> Step | None:
        """Return `step` as it is to be answered where known faults change it, else None."""
        shown = self.against(step)
        return None if shown is None else with_faults(step, shown)

    def of(self, step: Step) -> Step:
        """Return `step` as it is to be answered."""
        return self.changed(step) or step


AS_DRAWN = (
    "Is the screen just as drawn? It is drawn as this board shows it with its known fault, "
    "not as a good board would."
)


def with_faults(step: Step, shown: ShownWithFaults) -> Step:
    """Return `step` with the screen that is `shown` expected of it, where it has a screen."""
    if not isinstance(step, ScreenStep):
        return step
    return replace(step, expected=expected_with(step, shown), question=AS_DRAWN)


def helping_step(course: Course, prospect: Prospect) -> Step | None:
    """Return the look that would help to name a fault, where it can be sent as the board is set.

    One that was answered since the prospect was worked out has helped. One that a caution or
    another position of a switch comes before waits until it is its turn.
    """
    if prospect.next is None:
        return None
    step = course.plan.step(prospect.next)
    if course.verdict(step.id).answers != prospect.answers or course.due(step) != StepDue():
        return None
    if course.can_be_asked(step) or is_asked_again(course, step):
        return step
    return None


def is_asked_again(course: Course, step: Step) -> bool:
    """Return whether a look that helps has an answer that counts, and is asked once more."""
    return course.word(step.id) in (PASS, FAIL) and course.verdict(step.id).answers > 0


def answers_to(look: str | None, verdict: RunVerdict) -> int:
    """Return how many answers the look of this id has; 0 for none."""
    return sum(step.answers for step in verdict.steps if step.id == look)
