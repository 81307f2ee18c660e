"""The whole loop of a run without a full screen.

It takes each step in order, with the wishes repeat, slower, back and stop.
"""

from dataclasses import replace

from termprobe.journal.records import AS_EXPECTED, Answer
from termprobe.observer.base import (
    BACK,
    FORWARD,
    SKIP_STAGE,
    SLOWER,
    STOP,
    Person,
    Remark,
    Said,
    Wish,
)
from termprobe.plan.model import Step
from termprobe.runner.attention import Attention
from termprobe.runner.course import Course
from termprobe.runner.due import CautionDue, OptionDue, StepDue, SwitchOffDue, switch_to
from termprobe.runner.fault_naming import FaultNaming
from termprobe.runner.known_fault import Decide, ask_on
from termprobe.runner.pace import slower
from termprobe.runner.run import Run
from termprobe.runner.sitting import sitting
from termprobe.runner.stage_skipped import skip_stage
from termprobe.runner.told import GoneBack, SwitchOff
from termprobe.runner.torn import drawn_first

_LEFT_OPEN = "left open"
_STAGE_LEFT = "stage left"


def carry_out(run: Run, decide: Decide = ask_on) -> bool:
    """Carry out in order the steps of the run's plan that wait for an answer.

    `decide` says what is to become of a fault that is named. Return whether the end was reached.
    Raises LinkError, JournalError and KeyboardInterrupt; the journal holds every answer up to then.
    """
    with sitting(run):
        return _walk(run, FaultNaming(run, decide), Attention(run))


def _walk(run: Run, naming: FaultNaming, attention: Attention) -> bool:
    step: Step | None = None
    gone_back: Course | None = None  # while the builder is among steps answered before
    _try_danger_again(run)
    while _is_safe(run):
        if step is None or not (gone_back or run.course.can_be_asked(step)):
            step = run.course.next_step()
        if step is None:
            break
        wish = _checked(run, step, attention) or _one(run, step, is_again=gone_back is not None)
        if wish is None and gone_back is None:
            _pass_over_unless_answered(run, step)
            wish, step = _name_fault(run, step, naming)
        if wish == STOP:
            return False
        if wish == _STAGE_LEFT:
            step, gone_back = None, None
        elif wish == BACK:
            step, gone_back = _back(run, step, gone_back)
        else:
            step, gone_back = _forward(run, step, gone_back)
    return run.course.danger() is None


def _pass_over_unless_answered(run: Run, step: Step) -> None:
    """Pass over a step whose answer says nothing that can be judged; it is not asked for ever."""
    if run.course.can_be_asked(step):
        run.leave_open(step)


def _back(run: Run, step: Step, gone_back: Course | None) -> tuple[Step, Course]:
    """Return the step that was answered before `step`, and the course from there."""
    before, course = (gone_back or run.course).back(step.id)
    return before or step, course


def _name_fault(run: Run, step: Step, naming: FaultNaming) -> tuple[str | None, Step]:
    """Ask what helps to name a fault behind `step`, and do what is decided about one.

    Return the wish to stop or to go back, if any, and the step asked last.
    """
    following = naming.after(step)
    while following is not None:
        step = following
        wish = _one(run, step)
        if wish is not None:
            return wish, step
        following = naming.after(step)
    return (STOP if naming.is_to_be_repaired else None), step


def _forward(run: Run, step: Step, gone_back: Course | None) -> tuple[Step | None, Course | None]:
    """Return the next step that was gone back over, if any, and the course among those left."""
    if gone_back is None:
        return None, None
    following, course = replace(gone_back, verdicts=run.course.verdicts).forward(step.id)
    return following, course if course.ahead else None


def _try_danger_again(run: Run) -> None:
    """Where nobody attends a run that is gone on with, ask again what said to switch off."""
    danger = run.course.danger()
    if danger is not None and _person(run) is None:
        _one(run, danger)


def _is_safe(run: Run) -> bool:
    """Return whether the board may be on.

    Where a step says that it must be switched off, a person may put it right and try that step
    again; where nobody attends, the run ends.
    """
    while (danger := run.course.danger()) is not None:
        person = _person(run)
        if person is None:
            run.tell(SwitchOff(danger))
            return False
        if not person.switch_off(danger) or _one(run, danger) == STOP:
            return False
    return True


def _checked(run: Run, step: Step, attention: Attention) -> str | None:
    """Ask a wrong screen in the place of `step` where that is due.

    Return the wish to go back or to stop, else None: the step itself is to be asked.
    """
    if not attention.is_due(step):
        return None
    wish = _make_ready(run, step)
    pace = 1.0
    while wish is None and attention.show(step, pace):
        said = run.ask(step)
        while isinstance(said, Remark):
            attention.note(said.text, step, said.photo)
            said = run.ask(step)
        match said:
            case None:
                return None
            case Answer():
                attention.take(step, said)
            case Wish(word, reason) if word == SKIP_STAGE:
                return _leave_stage(run, step, reason)
            case Wish(word) if word in (BACK, STOP):
                return word
            case Wish(word) if word == SLOWER:
                pace = slower(pace)
    return wish if wish in (BACK, STOP, _STAGE_LEFT) else None


def _one(run: Run, step: Step, is_again: bool = False) -> str | None:
    """Carry out one step until it is answered or left open.

    Return None, or the wish to go back, to stop, or where it was answered before to go forward; or
    _STAGE_LEFT.
    """
    verdict = run.course.verdict(step.id)
    if is_again and verdict.answers:
        run.tell(GoneBack(verdict))
    pace = 1.0
    wish = _draw(run, step, pace)
    if wish:
        return None if wish == _LEFT_OPEN else wish
    while True:
        said = run.ask(step)
        match said:
            case None:
                run.leave_open(step)
                return None
            case Answer():
                run.record(step, said)
                return None
            case Remark(text, photo):
                run.note(text, step, photo)
            case Wish(word, reason) if word == SKIP_STAGE:
                return _leave_stage(run, step, reason)
            case Wish(word) if word in (BACK, STOP) or (word == FORWARD and is_again):
                return word
            case Wish(word) if word != FORWARD:
                pace = slower(pace) if word == SLOWER else pace
                wish = _draw(run, step, pace)
                if wish:
                    return None if wish == _LEFT_OPEN else wish


def _leave_stage(run: Run, step: Step, reason: str) -> str:
    """Leave out the rest of the stage of `step`."""
    skip_stage(run, step, reason)
    return _STAGE_LEFT


def _draw(run: Run, step: Step, pace: float) -> str | None:
    """Send `step` once all that is due before it is done; return None, or as _make_ready() does.

    Where the screen that it goes on from was drawn with other options, that is drawn anew first.
    """
    for part in (*drawn_first(run.plan, step, run.on_screen), step):
        wish = _make_ready(run, part)
        if wish == _LEFT_OPEN:
            run.leave_open(step)
        if wish:
            return wish
        run.perform(part, pace)
    return None


def _make_ready(run: Run, step: Step) -> str | None:
    """Have the caution acknowledged and the options set.

    Return None when ready, else a wish, _LEFT_OPEN or _STAGE_LEFT.
    """
    person = _person(run)
    while True:
        match run.course.due(step, is_attended=person is not None):
            case CautionDue(text):
                instead = person.acknowledge(text) if person else Wish(STOP)
                if instead is not None and instead.word == SKIP_STAGE:
                    return _leave_stage(run, step, instead.reason)
                if instead is not None:
                    return STOP
                run.acknowledge(step)
            case OptionDue() as due:
                wish = _set(run, step, due)
                if wish:
                    return wish
            case SwitchOffDue():
                return STOP
            case StepDue():
                return None


def _person(run: Run) -> Person | None:
    return next((one for one in run.observers if isinstance(one, Person)), None)


def _set(run: Run, step: Step, due: OptionDue) -> str | None:
    """Have an option set; return None once it stands, else a wish, _LEFT_OPEN or _STAGE_LEFT."""
    said: Said | None = run.ask(switch_to(run.plan, step, due.option, due.position))
    if isinstance(said, Wish) and said.word == SKIP_STAGE:
        return _leave_stage(run, step, said.reason)
    if isinstance(said, Wish) and said.word in (BACK, STOP):
        return said.word
    if not isinstance(said, Answer) or said.word != AS_EXPECTED:
        run.leave_open(step)
        return _LEFT_OPEN
    run.set_option(due.option, due.position)
    return None
