"""The course of a run: plan and records in, next thing to do out. Pure.

Prompts, unattended runs, the key walk and the full-screen session all ask here what is due before a
step, what must be sent for it, which press a code counts for, what comes next and how a run ends.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from termprobe.journal.records import (
    Finished,
    Record,
    Stopped,
)
from termprobe.observer.press import Events, bytes_of
from termprobe.plan.covered import asked_of
from termprobe.plan.model import KeyPress, Plan, Step, Switch
from termprobe.runner.due import CautionDue, Due, OptionDue, StepDue, SwitchOffDue, is_prepared
from termprobe.runner.trail import KeptOfRun, without
from termprobe.verdict.counts import Counts, counts
from termprobe.verdict.judge import judge
from termprobe.verdict.model import (
    BLOCKED,
    FAIL,
    UNANSWERED,
    Changed,
    MayBeLost,
    RunVerdict,
    Silent,
    StepVerdict,
)

INTERRUPTED, BY_BUILDER = "interrupted", "stopped by the builder"
FAILED = "the program failed"
SWITCHED_OFF = "switched off by the rule of a step"


def failed_by(error: BaseException) -> str:
    """Return the reason why a sitting ended that `error` broke."""
    return f"{FAILED}: {type(error).__name__}: {error}".rstrip(": ")


@dataclass(frozen=True)
class Course:
    """How far a run is."""

    plan: Plan
    verdicts: RunVerdict
    positions: Mapping[str, str] = field(default_factory=dict)
    """Where the board's options stand, as far as that is known."""
    acknowledged: frozenset[str] = frozenset()
    """The text of each caution read in this sitting; it is not asked for again."""
    trail: tuple[str, ...] = ()
    """The steps answered and not taken back, in order; `back` goes along it."""
    left_open: frozenset[str] = frozenset()
    """The steps passed over in this sitting."""
    ahead: tuple[str, ...] = ()
    """The steps that the builder has gone back over, the next one last."""
    first: tuple[str, ...] = ()
    """The steps that come before all others: what failed before a repair, or in the run before."""

    def verdict(self, step_id: str) -> StepVerdict:
        """Return the verdict of a step so far."""
        return self.verdicts.steps[self.plan.index[step_id]]

    def word(self, step_id: str) -> str:
        """Return a step's verdict so far as a word; unanswered where the plan has no such step."""
        return self.verdict(step_id).verdict if step_id in self.plan.index else UNANSWERED

    def due(self, step: Step, is_attended: bool = True) -> Due:
        """Return what is due next so that `step` can be answered.

        Where the board must be switched off only the step that says so can be tried, again. First
        comes its caution, then its settings, then the step itself. Where nobody attends, there is
        nobody to read a caution.
        """
        danger = self.danger()
        if danger is not None and step.id not in self.verdicts.switch_off:
            return SwitchOffDue(danger)
        if is_attended and step.caution and step.caution not in self.acknowledged:
            return CautionDue(step.caution)
        wrong = [(o, p) for o, p in step.settings if self.positions.get(o) != p]
        if wrong and not isinstance(step, Switch):
            return OptionDue(*wrong[0], then=tuple(wrong[1:]))
        return StepDue()

    def read(self, step: Step) -> "Course":
        """Return the course once the caution of `step` was read; it holds while its text is so."""
        return replace(self, acknowledged=self.acknowledged | {step.caution or ""})

    def set(self, option: str, position: str) -> "Course":
        """Return the course once an option was set."""
        return replace(self, positions={**self.positions, option: position})

    def danger(self) -> Step | None:
        """Return the first step by whose rule the board must be switched off now, or None."""
        return next(map(self.plan.step, self.verdicts.switch_off), None)

    def can_be_asked(self, step: Step) -> bool:
        """Return whether `step` waits for an answer, and was not passed over in this sitting.

        Nothing can be asked while the board must be switched off.
        """
        is_open = self.word(step.id) == UNANSWERED and step.id not in self.left_open
        return is_open and self.danger() is None and is_prepared(self.plan, step, self.word)

    def next_step(self) -> Step | None:
        """Return the step to be asked next: what comes first, then in order; or None."""
        return next(filter(self.can_be_asked, self._in_order()), None)

    def _in_order(self) -> list[Step]:
        """Return the steps of the plan in the order in which they are asked."""
        first = [self.plan.step(step) for step in self.first if step in self.plan.index]
        wanted = {step.id: step for step in (*first, *self.plan.steps)}
        return list(wanted.values())

    def steps_left(self, steps: Iterable[Step] | None = None) -> list[Step]:
        """Return those of `steps` that are still to be answered if all goes well.

        The plan's steps are the default.
        """
        waiting = [step for step in self.plan.steps if self.word(step.id) == UNANSWERED]
        again = {step.id for step in waiting if self._is_open_again(step)}
        asked = asked_of(waiting, self.verdicts.passed, self.left_open, again)
        if steps is None:
            return asked
        wanted = {step.id for step in steps}
        return [step for step in asked if step.id in wanted]

    def _is_open_again(self, step: Step) -> bool:
        """Return whether `step` was answered and must be asked again, whatever covers it."""
        return isinstance(self.verdict(step.id).because, Changed | MayBeLost | Silent)

    def progress(self) -> tuple[int, int, int]:
        """Return (done, failed, left): steps with a verdict, those that failed, and all others."""
        found = self.counts
        return found.done, found.of(FAIL), found.left

    @property
    def counts(self) -> Counts:
        """How many steps there are, and what became of them."""
        return counts(self.verdicts.steps)

    def back(self, step_id: str | None) -> "tuple[Step | None, Course]":
        """Return (the step answered last before the one in hand, the course back at it).

        That course has the trail up to that step, which is None where there is none, and the step
        in hand ahead. Its answers stand; the next one counts.
        """
        trail = self.trail
        while trail and trail[-1] == step_id:
            trail = trail[:-1]
        if not trail:
            return None, self
        ahead = self.ahead if step_id is None else (*self.ahead, step_id)
        return self.plan.step(trail[-1]), replace(self, trail=trail[:-1], ahead=ahead)

    def forward(self, step_id: str | None = None) -> "tuple[Step | None, Course]":
        """Return (the next step that was gone back over, the course forward at it).

        It is None where there is none. A step in hand whose earlier answer is to stand is
        `step_id`. What has come to be blocked meanwhile is passed by; nothing else is.
        """
        passed = [] if step_id is None else [step_id]
        ahead = list(self.ahead)
        while ahead and self.word(ahead[-1]) == BLOCKED:
            passed.append(ahead.pop())
        answered = (one for one in passed if self.verdict(one).answers)
        course = replace(self, trail=(*self.trail, *answered), ahead=tuple(ahead[:-1]))
        return next(map(self.plan.step, ahead[-1:]), None), course

    def gone_on(self) -> "Course":
        """Return the course where the builder goes elsewhere, all steps gone back over behind."""
        step, course = self.forward()
        while step is not None:
            step, course = course.forward(step.id)
        return course

    def last_press(self) -> KeyPress | None:
        """Return the press answered last, or None."""
        for step_id in reversed(self.trail):
            step = self.plan.step(step_id)
            if isinstance(step, KeyPress):
                return step
        return None

    def answered(self, step_id: str, verdicts: RunVerdict) -> "Course":
        """Return the course once a step was answered, which makes its verdicts these."""
        trail = (*self.trail, step_id)
        left_open = self.left_open - {step_id}
        return replace(self, verdicts=verdicts, trail=trail, left_open=left_open)

    def taken_back(self, step_id: str) -> "Course":
        """Return the course once no answer to a step counts; verdicts stay as they were."""
        return replace(self, trail=tuple(without(self.trail, step_id)))

    def presses_left(self) -> list[KeyPress]:
        """Return the presses that wait for an answer, in order."""
        presses = [step for step in self._in_order() if isinstance(step, KeyPress)]
        return [step for step in presses if self.can_be_asked(step)]

    def is_any_press(self, asked: Step, is_free: bool) -> bool:
        """Return whether any press may come while `asked` is in hand.

        So it is in free order, but where a key answered already is to be pressed again.
        """
        is_new = isinstance(asked, KeyPress) and self.word(asked.id) == UNANSWERED
        return is_free and is_new

    def press_meant(self, asked: KeyPress, events: Events, is_free: bool) -> KeyPress | None:
        """Return the press that `events` count for, or None.

        It is the one asked for, in free order the one that they fit. Nothing heard is no miss
        while any press may come.
        """
        if is_free and events:
            return press_for([asked, *self.presses_left()], bytes_of(events))
        if self.is_any_press(asked, is_free):
            return None
        return asked

    def ending(self, reason: str) -> Finished | Stopped:
        """Return the last record of a sitting: finished, or stopped for `reason`.

        It is finished where nothing waits for an answer, and nothing broke the sitting off. Where
        the board must be switched off, that is the reason.
        """
        if self.danger() is not None and reason == BY_BUILDER:
            return Stopped(SWITCHED_OFF)
        is_broken_off = reason == INTERRUPTED or reason.startswith(FAILED)
        if self.next_step() is None and not is_broken_off:
            return Finished(self.verdicts.verdict)
        return Stopped(reason)


def course_of(
    plan: Plan,
    records: Sequence[Record],
    kept: KeptOfRun | None = None,
    positions: Mapping[str, str] | None = None,
    left_open: Iterable[str] = (),
) -> Course:
    """Return the Course of a run by its records.

    `positions` are those of options that no record tells; `kept`, one of the same plan, saves work,
    as in judge().
    """
    kept = kept or KeptOfRun(plan)
    verdicts, trail = judge(plan, records, kept.judged), kept.trail.after(records)
    standing = trail.standing
    return Course(
        plan,
        verdicts,
        {**(positions or {}), **standing.positions},
        frozenset(trail.acknowledged),
        tuple(trail.answered),
        frozenset(left_open),
        first=standing.first,
    )


def chain(plan: Plan, step: Step, on_screen: str | None) -> tuple[Step, ...]:
    """Return the steps to be sent for `step`: itself, and those that its screen goes on from.

    `on_screen` is the id of the step whose screen the board shows now, None where that is not
    known.
    """
    index = plan.index[step.id]
    first = index
    while plan.steps[first].continues and first and on_screen != plan.steps[first - 1].id:
        first -= 1
    return plan.steps[first : index + 1]


def press_for(presses: Iterable[KeyPress], data: bytes) -> KeyPress | None:
    """Return the first of `presses` that sends just `data`.

    Else it is the first whose code `data` begins with, else None.
    """
    known = list(presses)
    for step in known:
        if step.press.code == data:
            return step
    begun = (step for step in known if step.press.code and data.startswith(step.press.code))
    return next(begun, None)
