"""The whole loop of a run without a full screen: each step in order, with the wishes repeat, slower, back and stop."""

from termprobe.plan.model import SWITCH, Step
from termprobe.verdict.model import UNANSWERED
from termprobe.observer.base import AS_EXPECTED, BACK, REPEAT, SLOWER, STOP

SLOWER_BY = 2.0
"""Each wish for slower sending multiplies the time of a character and of every pause by this."""
_LEFT_OPEN = "left open"


def carry_out(run, steps):
    """Carry out `steps` in order, those left out that have a verdict; return whether the end was reached.

    Raises LinkError, JournalError and KeyboardInterrupt; the journal holds every answer up to then.
    """
    try:
        is_done = _walk(run, steps)
    except KeyboardInterrupt:
        run.journal.append("stopped", sync=True, reason="interrupted")
        raise
    if is_done:
        run.journal.append("finished", sync=True, verdict=run.verdicts().verdict)
    else:
        run.journal.append("stopped", sync=True, reason="stopped by the builder")
    return is_done


def _walk(run, steps):
    place, is_wished = 0, False
    while place < len(steps):
        step = steps[place]
        wish = None
        if is_wished or (run.verdict(step).verdict == UNANSWERED and not run.is_open(step)):
            wish = _one(run, step)
        if wish == STOP:
            return False
        is_wished = wish == BACK
        place = _before(run, steps, place) if is_wished else place + 1
    return True


def _before(run, steps, place):
    """Return the place of the nearest step before `place` that was answered or can be; `place` where there is none."""
    for earlier in range(place - 1, -1, -1):
        verdict = run.verdict(steps[earlier])
        if verdict.answers or verdict.verdict == UNANSWERED:
            return earlier
    return place


def _one(run, step):
    """Carry out one step until it is answered or left open; return None, or the wish to go back or to stop."""
    wish = _make_ready(run, step)
    if wish:
        return None if wish == _LEFT_OPEN else wish
    pace = 1.0
    run.perform(step)
    while True:
        answer = run.ask(step)
        if answer is None:
            run.leave_open(step, "nobody could answer")
            return None
        if answer.wish in (BACK, STOP):
            return answer.wish
        if answer.wish in (REPEAT, SLOWER):
            pace *= SLOWER_BY if answer.wish == SLOWER else 1.0
            run.perform(step, pace)
        elif answer.speaks:
            run.record(step, answer)
            return None
        else:
            run.note(step, answer.note)


def _make_ready(run, step):
    """Have the caution acknowledged and the options set; return None when ready, else a wish or _LEFT_OPEN."""
    person = next(
        (observer for observer in run.observers if hasattr(observer, "acknowledge")), None
    )
    if person and run.caution(step):
        if not person.acknowledge(step.caution):
            return STOP
        run.acknowledge(step)
    for option, position in run.to_be_set(step) if step.kind != SWITCH else ():
        answer = run.ask(_switch_step(run.plan, step, option, position))
        if answer is not None and answer.wish in (BACK, STOP):
            return answer.wish
        if answer is None or answer.word != AS_EXPECTED:
            run.leave_open(step, f"needs option {option} at {position}")
            return _LEFT_OPEN
        run.set_option(option, position)
    return None


def _switch_step(plan, step, option, position):
    """Return the plan's own step that sets the option so, or one made up for the purpose."""
    for other in plan.steps:
        if (other.kind, other.option, other.position) == (SWITCH, option, position):
            return other
    return Step(
        f"{option}-{position}",
        step.stage,
        SWITCH,
        f"Set {option} to {position}",
        "",
        option=option,
        position=position,
    )
