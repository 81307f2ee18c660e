"""A caution is read and acknowledged before its step."""

from dataclasses import replace

from termprobe.session.draw.rows import Rows, blank, paragraph, plain
from termprobe.session.messages import Acknowledge
from termprobe.session.mode import Mode, ModeKey, View
from termprobe.session.react.answering import after_looking
from termprobe.session.react.in_hand import go_on
from termprobe.session.shared_keys import AT_ANY_TIME, JUMP_AWAY, SKIP_KEY, SKIP_STAGE_KEY
from termprobe.session.state import Reaction, State


@after_looking
def _acknowledge(state: State, key: str) -> Reaction:
    """The caution was read: go on to the step."""
    after, requests = go_on(replace(state, course=state.course.read(state.step)))
    return after, (Acknowledge(state.step.id), *requests)


def _panel(view: View) -> Rows:
    step, columns = view.state.step, view.columns
    rows = [
        blank(),
        plain("  CAUTION", "class:fail"),
        blank(),
        *paragraph(step.caution or "", columns, "class:strong"),
        blank(),
        *paragraph(f"Before: {step.title}", columns),
    ]
    if step.stop_if:
        rows += paragraph(f"Switch off at once if: {step.stop_if}", columns, "class:fail")
    ready = "Press enter or y when you have read this and it is safe to go on."
    return [*rows, blank(), *paragraph(ready, columns, "class:strong")]


MODE = Mode(
    name="caution",
    title="caution: read, then acknowledge",
    keys=(
        ModeKey("enter y", _acknowledge, "read and understood", "acknowledge the caution"),
        SKIP_KEY,
        SKIP_STAGE_KEY,
        JUMP_AWAY,
        *AT_ANY_TIME,
    ),
    panel=_panel,
)
