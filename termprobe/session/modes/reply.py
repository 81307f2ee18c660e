"""What the board replied was wrong; the builder sees it before the session goes on."""

from termprobe.plan.model import Reply
from termprobe.session.draw.rows import Rows, paragraph
from termprobe.session.mode import Mode, ModeKey, View
from termprobe.session.react.in_hand import take_next
from termprobe.session.shared_keys import AROUND, BESIDE_A_STEP, DISPUTED_KEY
from termprobe.session.state import Reaction, State


def go_to_next(state: State, key: str) -> Reaction:
    following = state.course.next_step()
    next_id = state.next_id
    if next_id is None and following is not None:
        next_id = following.id
    return take_next(state.say(""), next_id)


def _task(view: View) -> Rows:
    step = view.state.step
    if not isinstance(step, Reply):
        return []
    return paragraph(f"Must come back: {step.wanted}", view.columns)


SEEN_KEYS = (
    ModeKey("enter space escape", go_to_next, "go on", "go on to the next step"),
    DISPUTED_KEY,
    *AROUND,
    *BESIDE_A_STEP,
)
"""Of what was found without the builder, who sees it before going on."""

MODE = Mode(
    name="reply",
    title="what the board replied",
    keys=SEEN_KEYS,
    kind=Reply.kind,
    is_of_step=True,
    task=_task,
    shows_screen=True,
    shows_question=True,
)
