"""The session is paused; a pause does not count as time for the look."""

from dataclasses import replace

from termprobe.session.draw.rows import Rows, blank, paragraph
from termprobe.session.messages import Note
from termprobe.session.mode import Mode, ModeKey, View
from termprobe.session.shared_keys import BESIDE_A_STEP
from termprobe.session.state import Reaction, State


def _go_on(state: State, key: str) -> Reaction:
    return replace(state.back(), ready_at_s=state.now_s), (Note("pause ended", state.step_id),)


def _panel(view: View) -> Rows:
    return [
        blank(),
        *paragraph("Paused. All answers are in the run file.", view.columns, "class:strong"),
        blank(),
        *paragraph("Press p to go on.", view.columns),
    ]


MODE = Mode(
    name="paused",
    title="paused",
    keys=(ModeKey("p enter space escape", _go_on, "go on", "go on"), *BESIDE_A_STEP),
    panel=_panel,
)
