"""Takes a step in hand: its caution first, then the options it needs, then it is sent.

Pure.
"""

from dataclasses import replace

from termprobe.plan.model import LineCheck, Measure, Reply, Step
from termprobe.report.walk_words import of_answer_before
from termprobe.runner.due import CautionDue, OptionDue, StepDue
from termprobe.runner.pace import slower as slower_pace
from termprobe.session.messages import ReadReport, Send
from termprobe.session.state import Reaction, State


def take(state: State, step_id: str | None) -> Reaction:
    """Return the reaction that takes the step `step_id` in hand; None ends the steps."""
    fresh = replace(
        state.at("ended"),
        step_id=step_id,
        marks={},
        remark="",
        predictions=None,
        picked=0,
        offered=(),
        regions=(),
        scroll=None,
        typed=b"",
        mistyped="",
        play=None,
        broke_at="",
        report="",
        cause="",
        pace=1.0,
        turns=0,
        ready_at_s=state.now_s,
    )
    if step_id is None and fresh.course.danger() is None:
        return fresh, (ReadReport(),)
    return go_on(fresh)


def go_on(state: State) -> Reaction:
    """Return the reaction that asks for what is due before the step, or sends it.

    What this terminal cannot do is only shown. Where the board must be switched off, the step that
    says so is in hand.
    """
    danger = state.course.danger()
    if danger is not None and state.step_id not in state.course.verdicts.switch_off:
        return replace(state.at("switch-off"), step_id=danger.id), ()
    if state.step.not_fitted:
        return state.at("not-fitted"), ()
    match state.course.due(state.step):
        case CautionDue():
            return state.at("caution"), ()
        case OptionDue():
            return replace(state.at("setting"), ready_at_s=state.now_s), ()
    send = Send(state.step.id, state.pace)
    if isinstance(state.step, Measure) and not (state.step.groups or state.step.continues):
        return state.at("measure"), (send,)  # nothing is waited for
    return state.at("waiting"), (send,)


def is_ready(state: State) -> bool:
    """Return whether the step in hand can be sent: it is fitted, and nothing is due before it."""
    return not state.step.not_fitted and state.course.due(state.step) == StepDue()


def take_again(state: State, key: str) -> Reaction:
    """Leave what was done beside the step, and begin it anew."""
    return take(state, state.step_id)


def repeat(state: State, key: str) -> Reaction:
    """Send the step again."""
    return _resend(state, state.pace, "sent again")


def show_slower(state: State, key: str) -> Reaction:
    """Send the step again, slower than before."""
    pace = slower_pace(state.pace)
    return _resend(state, pace, f"sent again, each character takes {pace:g} times as long")


def _resend(state: State, pace: float, notice: str) -> Reaction:
    waiting = replace(state.at("waiting"), pace=pace, typed=b"")
    return waiting.say(notice), (Send(state.step.id, pace),)


def go_back(state: State, key: str) -> Reaction:
    """Take the step answered before this one in hand again."""
    state = state.say("")
    before, course = state.course.back(state.step_id)
    if before is None:
        return state.say("no step was answered before this one; j lists all"), ()
    return _take_answered(replace(state, course=course), before)


def go_forward(state: State, key: str) -> Reaction:
    """Take the step that was gone back over in hand again; the earlier answer stands."""
    step, course = state.course.forward(state.step_id)
    following = step or course.next_step()
    gone = replace(state, course=course)
    if following is None:
        return take(gone.say(""), None)
    return _take_answered(gone.say(""), following)


def take_next(state: State, step_id: str | None) -> Reaction:
    """Take the next step that was gone back over in hand, `step_id` where there is none."""
    step, course = state.course.forward()
    gone = replace(state, course=course)
    if step is None:
        return take(gone, step_id)
    return _take_answered(gone, step)


def _take_answered(state: State, step: Step) -> Reaction:
    """Take in hand a step that may have an answer, and say which; a reply is only shown."""
    after, requests = take(state, step.id)
    verdict = state.course.verdict(step.id)
    if not verdict.answers:
        return after, requests
    if isinstance(step, Reply | LineCheck) and after.mode == "waiting":
        after, requests = replace(after.at(step.kind), next_id=None), ()
    told = "; ".join(filter(None, (state.notice, of_answer_before(verdict))))
    return after.say(told), requests
