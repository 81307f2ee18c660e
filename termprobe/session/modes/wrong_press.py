"""A press was wrong: the builder decides what is to become of it before the walk goes on."""

from dataclasses import replace

from termprobe.session.draw.rows import Rows, paragraph
from termprobe.session.messages import PressHeard, TakeBack
from termprobe.session.mode import Mode, ModeKey, View
from termprobe.session.modes import pressing
from termprobe.session.react.in_hand import take, take_next
from termprobe.session.react.sounds import of_wrong_press, switch_press_bell
from termprobe.session.shared_keys import ADD_NOTE, BESIDE_A_STEP
from termprobe.session.state import Reaction, State

DECIDE_FIRST = "a key was pressed, and does not count: decide about the one before first"


def _keep(state: State, key: str) -> Reaction:
    """Let the press count as it came, and go on."""
    return take_next(state.say(""), state.next_id)


def _press_again(state: State, key: str) -> Reaction:
    """Ask for the key once more; its presses together give a rate."""
    after, requests = take(state, state.step_id)
    return after.say("press it once more; its presses together give a rate"), requests


def _take_back(state: State, key: str) -> Reaction:
    """Let the press count no more, and ask for it again."""
    step_id = state.step.id
    without = replace(state, course=state.course.taken_back(step_id), heard_id=None)
    after, requests = take(without, step_id)
    return after.say("undone; press it again"), (TakeBack(step_id), *requests)


def _not_taken(state: State, event: PressHeard) -> Reaction:
    """Take no press before it is decided."""
    if not event.events:
        return state, ()
    return state.say(DECIDE_FIRST), of_wrong_press(state)


def _panel(view: View) -> Rows:
    asked = "It was not what must come. Enter keeps it, r presses it again, x takes it back."
    told = paragraph(asked, view.columns, "class:strong")
    none_asked = replace(view.state, step_id=None)
    below = replace(view, state=none_asked, rows=max(view.rows - len(told), 0))
    return told + pressing.came_and_keyboard(below)


MODE = Mode(
    name="wrong-press",
    title="decide about the wrong press",
    keys=(
        ModeKey("enter space escape", _keep, "keep it", "it counts as it came; go on"),
        ModeKey("r", _press_again, "again", "press the key once more; both presses count"),
        ModeKey("x", _take_back, "undo", "it counts no more, and is asked for again"),
        ModeKey("k", switch_press_bell, "", "the bell for a wrong press: off, or on again"),
        ADD_NOTE,
        *BESIDE_A_STEP,
    ),
    on_press=_not_taken,
    panel=_panel,
    hint=pressing.MODE.hint,
    help_more=pressing.MODE.help_more,
)
