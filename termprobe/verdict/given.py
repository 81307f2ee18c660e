"""What was answered to each step, and what the line had shown of itself by then. Pure.

Where nothing has ever come over the line, that nothing came of a step says nothing of the board:
the cable, the adapter or a switch may keep it away.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from termprobe.journal.asked_again import AskedAgain
from termprobe.journal.records import (
    DISPUTED,
    SKIPPED,
    UNSURE,
    Answer,
    Answered,
    Arrived,
    Record,
    Resumed,
    StepBegun,
    TakenBack,
)
from termprobe.plan.model import KeyPress, Plan, Reply, ScreenStep, Step, TypedBack
from termprobe.verdict.model import Pressed

_NOT_COMPARED = (UNSURE, DISPUTED, SKIPPED)


@dataclass
class StepAnswers:
    """The answers to one step that count, in order.

    Of `given` only the last one is ever let go, and of `taken_back` none: the beginning of such a
    list holds for ever, and needs not be copied.
    """

    given: list[Answered] = field(default_factory=list)
    taken_back: list[Answered] = field(default_factory=list)
    """Those that count no more, in order."""
    unheard: list[Answered] = field(default_factory=list)
    """Those that say that nothing came, given before anything had ever come over the line."""
    presses: list[Pressed] = field(default_factory=list)
    """What the first of `given`, the first two and so on make of a press; filled by who judges."""
    unheard_presses: list[Pressed] = field(default_factory=list)
    """The same of `unheard`."""
    is_changed: bool = False
    """Whether the last was given to the step as it is no more; none before it counts."""
    errors: tuple[str, ...] = ()
    """What the line reported of the bytes of the last answer."""
    readings: list[Answered] = field(default_factory=list)
    """The last of `given`, and before it those that count beside it, since the look was asked once
    more."""
    is_asked_again: bool = False
    """Whether the next answer counts beside those before."""

    def add(self, record: Answered) -> None:
        """Let an answer count: as one more reading where that was asked for."""
        if not self.is_asked_again:
            del self.readings[-1:]
        self.given.append(record)
        self.readings.append(record)
        self.is_asked_again = False

    def make_room(self) -> None:
        """Let the last one go: another comes in its place."""
        for kept, presses in (
            (self.given, self.presses),
            (self.unheard, self.unheard_presses),
        ):
            del kept[-1:]
            del presses[len(kept) :]

    def drop(self) -> None:
        """Let none of them count."""
        self.taken_back += self.given
        self.clear()
        self.is_changed = False

    def clear(self) -> None:
        """Forget all answers that count."""
        self.forget_given()
        self.forget_unheard()

    def forget_given(self) -> None:
        """Begin with none that is compared.

        The list of those so far stays as it is: verdicts tell of it.
        """
        self.given, self.presses, self.readings = [], [], []

    def forget_unheard(self) -> None:
        """Begin with none that says that nothing came."""
        self.unheard, self.unheard_presses = [], []


@dataclass
class Given:
    """What was answered in a run."""

    answers: dict[str, StepAnswers]
    """By the id of the step."""
    has_come: bool = False
    """Whether anything has ever come over the line, an error included."""


def given(plan: Plan, records: Iterable[Record]) -> Given:
    """Return the answers to the steps of `plan` by a journal's `records`, in order."""
    gathering = Gathering(plan)
    for record in records:
        gathering.take(record)
    return gathering.found


class Gathering:
    """Takes records in order, and gathers what was answered."""

    def __init__(self, plan: Plan) -> None:
        self.found = Given({step.id: StepAnswers() for step in plan.steps})
        self._plan = plan
        self._arrived: list[Arrived] = []
        """What came back since the last step was begun."""

    def take(self, record: Record) -> None:
        """Take the next record."""
        found = self.found
        match record:
            case StepBegun():
                self._arrived.clear()
            case Arrived():
                self._arrived.append(record)
                found.has_come = found.has_come or bool(record.data or record.error)
            case AskedAgain(step=step_id) if step_id in found.answers:
                found.answers[step_id].is_asked_again = True
            case Resumed():
                self._ask_none_again()
            case TakenBack(step=step_id) if step_id in found.answers:
                found.answers[step_id].drop()
            case Answered(step=step_id) if step_id in found.answers:
                self._add(record)

    def _add(self, record: Answered) -> None:
        """Add an answer to those of its step, where the step is still as it was asked."""
        found, plan = self.found, self._plan
        step = plan.step(record.step)
        answers, answer = found.answers[step.id], record.answer
        if record.amends:
            answers.make_room()
        found.has_come = found.has_come or _has_bytes(answer)
        answers.is_changed = not plan.earlier.counts(step.id, step.hash, record.hash)
        if answers.is_changed:
            answers.clear()
            return
        if not found.has_come and _nothing_came(step, answer):
            answers.taken_back += answers.given
            answers.forget_given()
            answers.unheard.append(record)
            return
        answers.add(record)
        answers.forget_unheard()
        answers.errors = _errors_of(answer.data or b"", self._arrived)

    def _ask_none_again(self) -> None:
        """Forget what was to be asked once more in a sitting that has ended."""
        for answers in self.found.answers.values():
            answers.is_asked_again = False


def _has_bytes(answer: Answer) -> bool:
    return bool(answer.data or (answer.heard and answer.heard.events))


def _nothing_came(step: Step, answer: Answer) -> bool:
    """Return whether the answer says that nothing came where something had to."""
    if answer.word in _NOT_COMPARED:
        return False
    if isinstance(step, KeyPress):
        return answer.heard is not None and not answer.heard.events
    return isinstance(step, Reply | TypedBack) and answer.data == b""


def _errors_of(data: bytes, arrived: Sequence[Arrived]) -> tuple[str, ...]:
    """Return the errors of the last bytes that have arrived, as many as `data` has, each once."""
    errors: list[str] = []
    left = len(data)
    for record in reversed(arrived):
        if left <= 0:
            break
        left -= len(record.data)
        if record.error:
            errors.append(record.error)
    return tuple(dict.fromkeys(reversed(errors)))


def shows_hearing(step: Step, answer: Answer, has_passed: bool) -> bool:
    """Return whether an answer shows that the board has received what the step sends.

    A blank screen shows nothing of the kind, whether it had to be blank or not.
    """
    if not step.data or not isinstance(step, ScreenStep):
        return False
    if has_passed:
        return step.expected is None or has_text(step.expected.rows)
    return answer.seen is None or has_text(answer.seen)


def has_text(rows: Sequence[str]) -> bool:
    """Return whether anything but blanks stands in the rows."""
    return any(row.strip(" ") for row in rows)
