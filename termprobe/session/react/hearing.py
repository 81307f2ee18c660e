"""What each event from the worker does.

Pure: the time is passed in.
"""

from collections.abc import Callable
from dataclasses import replace

from termprobe.observer.base import BOARD_KEYBOARD
from termprobe.observer.press import answer_of
from termprobe.plan.model import KeyPress, LineCheck, Look, Reply
from termprobe.runner.course import Course
from termprobe.session.drawn_anew import Torn
from termprobe.session.messages import (
    BoardScreen,
    Came,
    Foreseen,
    Judged,
    LoopEnded,
    Lost,
    Note,
    PressHeard,
    Prospected,
    RecordAnswer,
    Regained,
    ReportRead,
    Send,
    Shown,
    Told,
    Wanted,
    WorkerEvent,
)
from termprobe.session.mode_table import MODES, mode_of
from termprobe.session.react.answering import LOOK_FIRST
from termprobe.session.react.in_hand import is_ready, take, take_next
from termprobe.session.react.sounds import of_ready_step, of_wrong_press
from termprobe.session.state import Reaction, State
from termprobe.verdict.model import BLOCKED, FAIL, PASS

KEPT_BYTES = 64
"""So many of the bytes that came back can be shown."""


def hear(state: State, event: WorkerEvent, now_s: float) -> Reaction:
    """Return the reaction to `event` at `now_s`."""
    after, requests = _heard(replace(state, now_s=now_s), event)
    return with_fault_named(after), requests


def _heard(state: State, event: WorkerEvent) -> Reaction:
    match event:
        case Prospected():
            return replace(state, prospect=event.prospect), ()
        case Shown():
            return _in_lowest(state, lambda lowest: _shown(lowest, event))
        case Torn():
            return _in_lowest(state, lambda lowest: _torn(lowest, event))
        case Judged():
            return _in_lowest(state, lambda lowest: _judged(lowest, event))
        case Came():
            return _came(state, event)
        case PressHeard(is_more=True):
            return _amended(state, event)
        case PressHeard():
            return MODES[state.mode].on_press(state, event)
        case Lost():
            return _lost(state, event)
        case Regained():
            return _regained(state, event)
        case LoopEnded():
            return _loop_ended(state, event)
        case BoardScreen():
            return replace(state, board_screen=event.screen), ()
        case ReportRead():
            return replace(state, report=event.text, cause=event.cause), ()
        case Foreseen():
            return _predicted(state, event), ()
        case Told():
            return state.say(event.text), ()


def with_fault_named(state: State) -> State:
    """Return the state in which a fault that was named is told, where that is no interruption."""
    is_due = state.prospect.named is not None and not state.is_fault_decided
    if not is_due or state.beneath or MODES[state.mode].kind != Look.kind:
        return state
    now_s = state.now_s
    return replace(state.to("cause-named"), step_ready_at_s=state.ready_at_s, ready_at_s=now_s)


def _predicted(state: State, event: Foreseen) -> State:
    """Keep what is predicted for the step in hand; what is being chosen from does not change."""
    is_of_step = event.predictions.step_id == state.step_id
    if not is_of_step or "choosing" in (state.mode, *state.beneath):
        return state
    return replace(state, predictions=event.predictions, picked=0)


def _in_lowest(state: State, change: Callable[[State], Reaction]) -> Reaction:
    """Return the reaction of the mode beneath those that pass (help, list, stop?, lost).

    These lie over it again.
    """
    if not state.beneath:
        return change(state)
    after, requests = change(replace(state, mode=state.lowest_mode, beneath=()))
    beneath = (after.mode, *state.beneath[1:])
    return replace(after, mode=state.mode, beneath=beneath), requests


def _shown(state: State, event: Shown) -> Reaction:
    """Go over to the mode in which the step is answered; a press may have been quicker."""
    if event.step_id != state.step_id:
        return state, ()
    events = state.early
    state = replace(state, ready_at_s=event.at_s, early=(), step_shown=event.step)
    if state.is_told_to_wait:
        state = state.say(LOOK_FIRST)
    if not MODES[state.mode].is_waiting:
        return state, ()
    mode = mode_of(state.step)
    if events:
        return mode.on_press(state.at(mode.name), PressHeard(events))
    after, requests = mode.on_begin(state.at(mode.name))
    return after, (*of_ready_step(after), *requests)


def _torn(state: State, event: Torn) -> Reaction:
    """Take the first step of a chain in hand; those behind it follow as if gone back over."""
    if event.step_id != state.step_id:
        return state, ()
    first, *others = event.before
    course = state.course
    ahead = (*course.ahead, event.step_id, *reversed(others))
    after, requests = take(replace(state, course=replace(course, ahead=ahead)), first)
    told = f"{state.step.title} goes on from this screen, which is drawn anew"
    return after.say(told), requests


def _came(state: State, event: Came) -> Reaction:
    """Take the bytes one by one: the first that answers changes what the next may do."""
    came = (state.came + event.data)[-KEPT_BYTES:]
    after = replace(state, came=came, errors=event.error or state.errors)
    requests: list[Wanted] = []
    for code in event.data:
        after, more = MODES[after.mode].on_code(after, code)
        requests += more
    return after, tuple(requests)


def _amended(state: State, event: PressHeard) -> Reaction:
    """More has come of the press heard last: it is judged anew, whatever the console shows now."""
    step = state.plan.step(state.heard_id) if state.heard_id else None
    if not isinstance(step, KeyPress):
        return state, ()
    answer = replace(answer_of(step.press, event.events, state.format), observer=BOARD_KEYBOARD)
    return state, (RecordAnswer(step.id, answer, amends=True),)


def _judged(state: State, event: Judged) -> Reaction:
    """Take the verdicts; what they mean is the mode's to say."""
    if event.is_amended:
        return _judged_anew(state, event)
    after = replace(state, course=_course_after(state, event))
    if event.step_id:
        after = after.say(state.notice or _outcome(state, after, event.step_id))
    after, requests = MODES[state.mode].on_judged(after, event)
    return replace(after, is_known=True), requests


def _judged_anew(state: State, event: Judged) -> Reaction:
    """Take the verdicts of a press that was judged before.

    The builder decides about one that has come to be wrong, and goes on where it has come right.
    """
    after = replace(state, course=replace(state.course, verdicts=event.course.verdicts))
    is_wrong = event.course.word(event.step_id or "") == FAIL
    if state.mode == "wrong-press" and state.step_id == event.step_id and not is_wrong:
        return take_next(after, state.next_id)
    is_asking = state.mode in ("pressing", "waiting") and isinstance(state.step, KeyPress)
    if not (is_wrong and is_asking) or state.is_walking:
        return after, ()
    held = replace(after.at("wrong-press"), step_id=event.step_id, next_id=state.step_id)
    return held.say(""), of_wrong_press(state)


def _course_after(state: State, event: Judged) -> Course:
    """Return the course with the news.

    Once it is known, only verdicts are new: the console knows first what the builder has read, set,
    answered and gone back over.
    """
    if not state.is_known:
        return event.course
    verdicts = event.course.verdicts
    if event.step_id:
        return state.course.answered(event.step_id, verdicts)
    return replace(state.course, verdicts=verdicts)


def _outcome(before: State, after: State, step_id: str) -> str:
    """Return what to say of an answer that was not plainly good.

    It may have sent the builder elsewhere, or blocked other steps.
    """
    step, word = after.plan.step(step_id), after.course.word(step_id)
    if word == PASS or isinstance(step, KeyPress | Reply | LineCheck):
        return ""
    blocked = len(_blocked(after) - _blocked(before))
    told = f"{step.title}: {word}"
    if blocked:
        told += f"; this blocks {blocked} step{'s' * (blocked > 1)}"
    return told


def _blocked(state: State) -> set[str]:
    """Return the ids of the steps that are blocked."""
    return {step.id for step in state.plan.steps if state.course.word(step.id) == BLOCKED}


def _lost(state: State, event: Lost) -> Reaction:
    """Go over to the mode of a lost line, unless that is where the builder comes from."""
    state = replace(state, lost=event.text, is_gone=event.is_gone)
    if "lost" in (state.mode, *state.beneath):
        return state, ()
    return state.to("lost"), ()


def _regained(state: State, event: Regained) -> Reaction:
    """Back to where the session was.

    The board may have lost its screen, so the step is sent again, where it was ready to be sent.
    """
    if state.mode == "lost":
        state = state.back().say(event.text)
    beneath = tuple(name for name in state.beneath if name != "lost")
    state = replace(state, lost="", beneath=beneath)
    if state.step_id is None or not MODES[state.mode].has_step:
        return state, ()
    if not is_ready(state):
        return state, ()
    if MODES[state.mode].is_of_step:
        state = replace(state.at("waiting"), play=None)
    return replace(state, typed=b""), (Send(state.step.id, state.pace),)


def _loop_ended(state: State, event: LoopEnded) -> Reaction:
    count = f"{event.characters} characters"
    after = state.at("wave").say(f"ended after {count}; the line is at {event.format} again")
    return after, (Note(f"bytes for the scope: {count} sent", state.step_id),)
