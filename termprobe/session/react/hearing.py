"""What each event from the worker does: State and event -> State and requests. Pure: the time is passed in."""

from dataclasses import replace

from termprobe.notation import show
from termprobe.plan.model import PRESS, REPLY, TYPED_BACK
from termprobe.session.react.dispatch import (
    BOARD_KEYBOARD,
    LOOK_FIRST,
    WAIT,
    answered,
    board_keys,
    is_too_soon,
    take,
)
from termprobe.session.messages import (
    Announce,
    BoardScreen,
    Came,
    Heard,
    Judged,
    LoopEnded,
    Lost,
    Note,
    PressKey,
    Regained,
    Send,
    Shown,
    Told,
)
from termprobe.session.state import KEPT_BYTES, MODE_OF_KIND, is_any_key, verdict_of
from termprobe.verdict.model import BLOCKED, PASS, UNANSWERED
from termprobe.observer.base import AS_EXPECTED, DIFFERS, KEYBOARD, Answer
from termprobe.observer.press import answer_of, fitting

STEP_MODES = (
    "sending",
    "look",
    "ask",
    "press",
    "typed-back",
    "reply",
    "measure",
    "setting",
    "marking",
    "play",
    "wave",
    "waving",
)


def hear(state, event, now_s):
    """Return (state, requests) after `event` at `now_s`."""
    return HEARD[type(event)](replace(state, now_s=now_s), event)


def _beneath(state, change, event):
    """Apply `change` to the mode beneath those that pass (help, list, stop?, lost), and lay these on top again."""
    if not state.before:
        return change(state, event)
    after, requests = change(replace(state, mode=state.before[0], before=()), event)
    return replace(after, mode=state.mode, before=(after.mode, *state.before[1:])), requests


def _shown(state, event):
    if event.step_id != state.step_id:
        return state, ()
    early = state.early
    state = replace(
        state, ready_at_s=event.at_s, notice="" if state.notice == WAIT else state.notice, early=()
    )
    if state.mode != "sending":
        return state, ()
    if early:
        return _heard(state.at(MODE_OF_KIND[state.step.kind]), Heard(early))
    requests = (PressKey(state.step_id),) if state.step.kind == PRESS and state.is_walking else ()
    return state.at(MODE_OF_KIND[state.step.kind]), requests


def _came(state, event):
    """Take the bytes one by one: the first that answers changes what the next may do."""
    state = replace(
        state, came=(state.came + event.data)[-KEPT_BYTES:], errors=event.error or state.errors
    )
    requests = ()
    for code in event.data:
        state, more = _came_code(state, code)
        requests += more
    return state, requests


def _came_code(state, code):
    if state.mode == "typed-back":
        return _typed(replace(state, typed=state.typed + bytes([code])))
    word = {"y": AS_EXPECTED, "n": DIFFERS}.get(chr(code & 0x7F).lower())
    if state.mode == "announced" and word == AS_EXPECTED:
        return board_keys("on")(state, "y")
    if state.mode in ("look", "ask") and state.board_keys == "on" and word:
        return (
            (state.say(LOOK_FIRST), ())
            if is_too_soon(state)
            else answered(state, Answer(word), BOARD_KEYBOARD)
        )
    return state, ()


def _typed(state):
    """The word is recorded by itself once it has come right; otherwise the builder decides when its end has come."""
    wanted = state.step.typed
    if state.typed == wanted:
        return answered(
            state, Answer(AS_EXPECTED, data=state.typed, strength=KEYBOARD), BOARD_KEYBOARD
        )
    if state.typed.endswith(wanted[-1:]) or len(state.typed) >= len(wanted):
        return state.say("that is not the word: x types it anew, n records what came"), ()
    return state, ()


def _heard(state, event):
    """A press counts for the step in hand; in free order for the step that it fits, and there none is missed.

    One that is made before the console asks for it waits for the question.
    """
    if state.mode == "sending" and state.step.kind == PRESS:
        return replace(state, early=state.early or event.events), ()
    if state.mode != "press" or is_any_key(state) and not state.is_practice and not event.events:
        return state, ()
    came = b"".join(data for _, data, _ in event.events)
    step = state.step
    if state.is_free and event.events:
        left = [
            one
            for one in state.plan.steps
            if one.kind == PRESS and verdict_of(state, one.id) == UNANSWERED
        ]
        step = fitting([step, *left], came)
    if step is None:
        return state.say(
            f"{show(came) or 'an error of the line'} came, which no press left sends"
        ), ()
    return answered(
        replace(state, step_id=step.id), answer_of(step, event.events, state.format), BOARD_KEYBOARD
    )


def _judged(state, event):
    """Go on to the next step, where one was answered, or where these are the first verdicts and they are waited for."""
    before, state = (
        state,
        replace(
            state, verdicts={verdict.id: verdict for verdict in event.verdicts.steps}, is_known=True
        ),
    )
    if event.step_id:
        state = replace(
            state,
            trail=(*state.trail, event.step_id),
            notice=state.notice or _outcome(before, state, event.step_id),
        )
    if state.mode == "opening":
        return replace(state, step_id=event.next_id), ()
    if state.mode != "sending" or before.is_known and event.step_id is None:
        return state, ()
    if event.is_held and event.step_id == state.step_id:
        return state.at(
            "reply",
            next_id=event.next_id,
            ready_at_s=state.now_s,
            notice=state.verdicts[event.step_id].reason,
        ), ()
    if state.board_keys == "unproven" and are_answer_keys_proven(state):
        state = state.at(
            "announced", step_id=event.next_id, ready_at_s=state.now_s, board_keys="proven"
        )
        return (state, (Announce(),)) if event.next_id else take(state, None)
    return take(state, event.next_id)


def _outcome(before, state, step_id):
    """Return what to say of an answer that was not plainly good: it may have sent the builder elsewhere, or blocked other steps."""
    step, word = state.plan.step(step_id), verdict_of(state, step_id)
    if word == PASS or step.kind in (PRESS, REPLY):
        return ""
    blocked = sum(
        verdict_of(state, other.id) == BLOCKED != verdict_of(before, other.id)
        for other in state.plan.steps
    )
    return f"{step.title}: {word}" + (
        f"; this blocks {blocked} step{'s' * (blocked > 1)}" if blocked else ""
    )


def are_answer_keys_proven(state):
    """Return whether words that were typed back right hold both answer keys, in one case or the other."""
    proven = "".join(
        step.word.lower()
        for step in state.plan.steps
        if step.kind == TYPED_BACK
        and step.word
        and step.id in state.verdicts
        and state.verdicts[step.id].verdict == PASS
    )
    return {"y", "n"} <= set(proven)


def _lost(state, event):
    changes = {"lost": event.text, "is_gone": event.is_gone}
    return (replace(state, **changes) if state.mode == "lost" else state.to("lost", **changes)), ()


def _regained(state, event):
    """Back to where the session was; the board may have lost its screen, so the step is sent again."""
    if state.mode == "lost":
        state = state.back(notice=event.text)
    state = replace(state, lost="", before=tuple(mode for mode in state.before if mode != "lost"))
    if state.step_id is None or state.mode in ("opening", "end"):
        return state, ()
    if state.mode in STEP_MODES:
        state = state.at("sending", play=None)
    return replace(state, typed=b""), (Send(state.step_id, state.pace),)


def _loop_ended(state, event):
    state = state.at(
        "wave",
        notice=f"ended after {event.characters} characters; the line is at {event.format} again",
    )
    return state, (Note(f"bytes for the scope: {event.characters} characters sent", state.step_id),)


def _board_screen(state, event):
    return replace(state, board_screen=event.screen), ()


HEARD = {
    Shown: lambda state, event: _beneath(state, _shown, event),
    Came: _came,
    Heard: _heard,
    Judged: lambda state, event: _beneath(state, _judged, event),
    Lost: _lost,
    Regained: _regained,
    LoopEnded: _loop_ended,
    BoardScreen: _board_screen,
    Told: lambda state, event: (state.say(event.text), ()),
}
