"""The worker is waited for: it sends a step, or writes an answer down and says what comes next."""

from dataclasses import replace

from termprobe.plan.model import KeyPress, Step
from termprobe.report import words
from termprobe.report.walk_words import LOOK_ONCE_MORE
from termprobe.runner.answer_keys import are_proven
from termprobe.runner.known_fault import helping_step, is_asked_again
from termprobe.session.messages import Announce, Judged, PressHeard, Send, Wanted
from termprobe.session.mode import Mode, ModeKey
from termprobe.session.react.in_hand import take, take_next
from termprobe.session.react.sounds import of_wrong_press
from termprobe.session.shared_keys import AT_ANY_TIME, BOARD, SCREEN_ALONE
from termprobe.session.state import Reaction, State
from termprobe.verdict.model import FAIL

WAIT = "sending: answer when all is there"


def _wait(state: State, key: str) -> Reaction:
    return replace(state.say(WAIT), is_told_to_wait=True), ()


def _walk_simulated_keys(state: State, key: str) -> Reaction:
    """Practice: press all keys that are left, or stop doing so.

    A press that is made ready now is seen to first.
    """
    if not isinstance(state.step, KeyPress):
        return state, ()
    return replace(state, is_walking=not state.is_walking), ()


def _keep_press(state: State, event: PressHeard) -> Reaction:
    """Keep a press that is made before the console asks for it; it waits for the question."""
    if not isinstance(state.step, KeyPress):
        return state, ()
    return replace(state, early=state.early or event.events), ()


def _go_on(state: State, event: Judged) -> Reaction:
    """Go on to the next step.

    So it is where one was answered or a fault decided about, and where these are the first verdicts
    and they are waited for.
    """
    if state.is_known and event.step_id is None and not event.is_decided:
        return state, ()
    if event.is_held and event.step_id is not None and event.step_id == state.step_id:
        notice = words.reason(event.course.verdict(event.step_id), state.plan.title_of)
        held_in = state.plan.step(event.step_id).kind
        held = replace(state.at(held_in), next_id=event.next_id, ready_at_s=state.now_s)
        return held.say(notice), ()
    if is_wrong_press(state, event):
        held = replace(state.at("wrong-press"), step_id=event.step_id, next_id=event.next_id)
        return held.say(""), of_wrong_press(state)
    if state.board_keys != "unproven" or not are_proven(state.course):
        helping = _helping(state, event)
        if helping is not None and is_asked_again(event.course, helping):
            return _take_again(state, helping)
        return take_next(state, helping.id if helping else event.next_id)
    proven = replace(state, step_id=event.next_id, ready_at_s=state.now_s, board_keys="proven")
    if event.next_id is None:
        return take(proven, None)
    return proven.at("announced"), (Announce(),)


def _take_again(state: State, look: Step) -> Reaction:
    """Take a look in hand that was answered: the cause hangs on that answer."""
    after, requests = take_next(state, look.id)
    if after.step_id != look.id:
        return after, requests
    return after.say(LOOK_ONCE_MORE), tuple(map(_as_again, requests))


def _as_again(request: Wanted) -> Wanted:
    if isinstance(request, Send):
        return replace(request, is_again=True)
    return request


def _helping(state: State, event: Judged) -> Step | None:
    """Return the look that would help to name a fault, where it can be sent now."""
    if state.is_fault_decided:
        return None
    course = replace(state.course, verdicts=event.course.verdicts)
    return helping_step(course, state.prospect)


def is_wrong_press(state: State, event: Judged) -> bool:
    """Return whether the press heard last was judged, and is wrong.

    A press that never came is none. In practice the walk that presses all keys does not stop.
    """
    is_of_it = event.step_id is not None and event.step_id == state.heard_id
    return is_of_it and event.course.word(event.step_id or "") == FAIL and not state.is_walking


MODE = Mode(
    name="waiting",
    title="sending",
    keys=(
        SCREEN_ALONE,
        BOARD,
        ModeKey(
            "a",
            _walk_simulated_keys,
            "",
            "practice: press all keys that are left; again: stop that",
            is_practice=True,
        ),
        *AT_ANY_TIME,
    ),
    other=_wait,
    is_waiting=True,
    is_of_step=True,
    on_press=_keep_press,
    on_judged=_go_on,
    shows_screen=True,
    shows_question=True,
    link_word=">> sending",
)
