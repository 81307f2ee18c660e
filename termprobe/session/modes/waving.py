"""Bytes are being sent over and over for the scope; any key ends it."""

from termprobe.session.draw.loop_rows import loop_rows
from termprobe.session.draw.rows import Rows, paragraph
from termprobe.session.messages import StopLoop
from termprobe.session.mode import Mode, ModeKey, View
from termprobe.session.state import Reaction, State


def _stop(state: State, key: str) -> Reaction:
    return state, (StopLoop(),)


def _panel(view: View) -> Rows:
    return loop_rows(view) + paragraph(">> sending, until any key", view.columns, "class:strong")


MODE = Mode(
    name="waving",
    title="sending for the scope: any key ends it",
    keys=(ModeKey("any escape", _stop, "ends it", "end the loop"),),
    other=_stop,
    is_of_step=True,
    panel=_panel,
    link_word=">> sending",
)
