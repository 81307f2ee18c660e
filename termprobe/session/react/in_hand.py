"""Takes a step in hand: its caution first, then the options it needs, then it is sent.

Pure.
"""

from dataclasses import replace

from termprobe.plan.model import SWITCH
from termprobe.session.messages import Send
from termprobe.session.standing import settings_due, verdict_of
from termprobe.session.state import Reaction, State

SLOWER_BY, SLOWEST = 2.0, 64.0
"""Each wish for slower sending makes a character take so many times as long, up to the second."""


def take(state: State, step_id: str | None) -> Reaction:
    """Return the reaction that takes the step `step_id` in hand; None ends the steps."""
    fresh = replace(
        state.at("ended"),
        step_id=step_id,
        marks={},
        remark="",
        scroll=None,
        typed=b"",
        play=None,
        pace=1.0,
        is_on_board=False,
        ready_at_s=state.now_s,
    )
    if step_id is None:
        return fresh, ()
    if fresh.step.caution and caution_key(fresh) not in fresh.acknowledged:
        return fresh.at("caution"), ()
    return send_when_set(fresh)


def caution_key(state: State) -> tuple[str, str]:
    """Return what a caution that was read is remembered by."""
    return state.step.stage, state.step.caution or ""


def send_when_set(state: State) -> Reaction:
    """Return the reaction that sends the step once every option stands as it needs."""
    if state.step.kind != SWITCH and settings_due(state, state.step):
        return replace(state.at("setting"), ready_at_s=state.now_s), ()
    return state.at("waiting"), (Send(state.step.id, state.pace),)


def take_again(state: State, key: str) -> Reaction:
    """Leave what was done beside the step, and begin it anew."""
    return take(state, state.step_id)


def repeat(state: State, key: str) -> Reaction:
    """Send the step again."""
    return _resend(state, state.pace, "sent again")


def slower(state: State, key: str) -> Reaction:
    """Send the step again, slower than before."""
    pace = min(state.pace * SLOWER_BY, SLOWEST)
    return _resend(state, pace, f"sent again, each character takes {pace:g} times as long")


def _resend(state: State, pace: float, notice: str) -> Reaction:
    waiting = replace(state.at("waiting"), pace=pace, typed=b"", notice=notice)
    return waiting, (Send(state.step.id, pace),)


def go_back(state: State, key: str) -> Reaction:
    """Take the step answered before this one in hand again."""
    trail = state.trail
    if trail[-1:] == (state.step_id,):
        trail = trail[:-1]
    if not trail:
        return state.say("no step was answered before this one; j lists all"), ()
    word = verdict_of(state, trail[-1])
    notice = f"answered before ({word}); both answers are kept, the last one counts"
    after, requests = take(replace(state, trail=trail[:-1]), trail[-1])
    return after.say(notice), requests
