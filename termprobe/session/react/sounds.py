"""The bell of the console: when it sounds, and that it can be switched off.

Pure.
"""

from dataclasses import replace

from termprobe.plan.model import KeyPress
from termprobe.session.messages import Ring, Wanted
from termprobe.session.state import Reaction, State

ONCE, TWICE = Ring(1), Ring(2)


def of_wrong_press(state: State) -> tuple[Wanted, ...]:
    """Return the bell for a press that is wrong, or that nobody asked for."""
    return (ONCE,) * state.has_press_bell


def of_ready_step(state: State) -> tuple[Wanted, ...]:
    """Return the bell for the step in hand, which has been sent; a press is not looked at."""
    is_looked_at = bool(state.step.groups) and not isinstance(state.step, KeyPress)
    return (TWICE,) * (state.has_look_bell and is_looked_at)


def switch_press_bell(state: State, key: str) -> Reaction:
    """Switch the bell for wrong presses on or off."""
    after = replace(state, has_press_bell=not state.has_press_bell)
    return after.say(f"the bell for a wrong press is {_on_or_off(after.has_press_bell)}"), ()


def switch_look_bell(state: State, key: str) -> Reaction:
    """Switch the bell for what is ready to be looked at on or off."""
    after = replace(state, has_look_bell=not state.has_look_bell)
    return after.say(f"the bell when a look is ready is {_on_or_off(after.has_look_bell)}"), ()


def _on_or_off(is_on: bool) -> str:
    return ("off", "on")[is_on]
