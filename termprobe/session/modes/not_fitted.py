"""A step that this terminal cannot do was chosen; it is shown, and nothing is sent or answered."""

from termprobe.session.draw.rows import Rows, paragraph
from termprobe.session.mode import Mode, ModeKey, View
from termprobe.session.react.in_hand import take
from termprobe.session.shared_keys import ADD_NOTE, BACK_KEY, BESIDE_A_STEP, FORWARD_KEY, JUMP_AWAY
from termprobe.session.state import Reaction, State


def _go_on(state: State, key: str) -> Reaction:
    """Go to the first step that waits for an answer."""
    following = state.course.next_step()
    return take(state.say(""), None if following is None else following.id)


def _task(view: View) -> Rows:
    why = f"Not fitted: {view.state.step.not_fitted}."
    way_back = "There is nothing to be answered. Press enter to go on, j to go to another step."
    return paragraph(why, view.columns, "class:strong") + paragraph(way_back, view.columns)


MODE = Mode(
    name="not-fitted",
    title="this terminal cannot do the step",
    keys=(
        ModeKey(
            "enter space escape",
            _go_on,
            "go on",
            "go on to the first step that waits for an answer",
        ),
        BACK_KEY,
        FORWARD_KEY,
        JUMP_AWAY,
        ADD_NOTE,
        *BESIDE_A_STEP,
    ),
    task=_task,
)
