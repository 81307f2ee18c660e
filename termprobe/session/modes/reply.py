"""What the board replied was wrong; the builder sees it before the session goes on."""

from termprobe.plan.model import Reply
from termprobe.session.draw.rows import Rows, paragraph
from termprobe.session.mode import Mode, ModeKey, View
from termprobe.session.react.in_hand import take
from termprobe.session.shared_keys import AROUND, AT_ANY_TIME, DISPUTED_KEY
from termprobe.session.state import Reaction, State


def _go_to_next(state: State, key: str) -> Reaction:
    return take(state.say(""), state.next_id)


def _task(view: View) -> Rows:
    step = view.state.step
    if not isinstance(step, Reply):
        return []
    return paragraph(f"Must come back: {step.wanted}", view.columns)


MODE = Mode(
    name="reply",
    title="the board's reply is not as expected",
    keys=(
        ModeKey("enter space", _go_to_next, "go on", "go on to the next step"),
        DISPUTED_KEY,
        *AROUND,
        *AT_ANY_TIME,
    ),
    kind=Reply.kind,
    is_of_step=True,
    task=_task,
    shows_screen=True,
    shows_question=True,
)
