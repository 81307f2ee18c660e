"""What is done beside the step: the ways into the modes that pass, or that lead back to the step.

Pure.
"""

import functools
from dataclasses import replace

from termprobe.session.messages import Note, Quit
from termprobe.session.react.group_play import play_of
from termprobe.session.react.waveform import Loop
from termprobe.session.state import KeyAction, Reaction, State
from termprobe.session.switched_off import NOTHING_IS_SENT

EDGES = b"U"
"""The loop for the scope begins with the byte of most edges."""


def show_help(state: State, key: str) -> Reaction:
    """Show what the keys do."""
    return replace(state.to("help"), page=0), ()


def read_report(state: State, key: str) -> Reaction:
    """Show the report."""
    return replace(state.to("reading"), page=0), ()


def ask_stop(state: State, key: str) -> Reaction:
    """Ask whether to stop."""
    return state.to("stopping"), ()


def stop(state: State, key: str) -> Reaction:
    """End the session."""
    return state, (Quit(),)


def interrupt(state: State, key: str) -> Reaction:
    """End the session without a question."""
    return state, (Quit(is_interrupted=True),)


def leave(state: State, key: str) -> Reaction:
    """Leave a passing mode."""
    return state.back().say(""), ()


def jump(state: State, key: str) -> Reaction:
    """Open the list of steps at the step in hand."""
    ids = [step.id for step in state.plan.steps]
    chosen = ids.index(state.step.id) if state.step.id in ids else 0
    return replace(state.to("list"), chosen=chosen, notice=""), ()


def pause(state: State, key: str) -> Reaction:
    """Pause, and write it down."""
    return state.to("paused").say(""), (Note("paused", state.step_id),)


def _nothing_sent(action: KeyAction) -> KeyAction:
    """Return `action`, which sends, refused while the board must be switched off."""

    @functools.wraps(action)
    def guarded(state: State, key: str) -> Reaction:
        if state.course.danger() is not None:
            return state.say(NOTHING_IS_SENT), ()
        return action(state, key)

    return guarded


@_nothing_sent
def step_through(state: State, key: str) -> Reaction:
    """Play the step in hand group by group."""
    if not state.step.groups:
        return state.say("this step sends nothing"), ()
    play = play_of(state.plan, state.step, state.profile)
    return replace(state.at("play"), play=play, notice="", scroll=None), ()


@_nothing_sent
def wave(state: State, key: str) -> Reaction:
    """Open the loop for the scope."""
    loop = state.loop or Loop(EDGES, state.format)
    return replace(state.at("wave"), loop=loop, notice=""), ()
