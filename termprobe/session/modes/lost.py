"""The line is gone, or cannot be used as it is."""

from termprobe.session.draw.rows import Rows, blank, paragraph, plain
from termprobe.session.messages import Retry
from termprobe.session.mode import Mode, ModeKey, View
from termprobe.session.shared_keys import ADD_NOTE, AT_ANY_TIME
from termprobe.session.state import Reaction, State

PUT_RIGHT = "Put it right, then press enter: the step is sent again. Nothing answered is lost."
PLUG_IN = (
    "Plug the adapter into the computer again: the session goes on by itself, with this step. "
    "Nothing answered is lost."
)
OTHER_NAME = "Is it under another name now? Press q, and go on with --resume and the new --port."


def _retry(state: State, key: str) -> Reaction:
    return state, (Retry(),)


def _panel(view: View) -> Rows:
    state, columns = view.state, view.columns
    title, advice = "  TROUBLE WITH THE LINE", paragraph(PUT_RIGHT, columns, "class:strong")
    if state.is_gone:
        title, advice = "  THE LINE IS GONE", paragraph(PLUG_IN, columns, "class:strong")
        advice += paragraph(OTHER_NAME, columns)
    return [
        blank(),
        plain(title, "class:fail"),
        blank(),
        *paragraph(state.lost, columns),
        blank(),
        *advice,
    ]


MODE = Mode(
    name="lost",
    title="the line cannot be used",
    keys=(
        ModeKey("enter", _retry, "try now", "try to get the line back now"),
        ADD_NOTE,
        *AT_ANY_TIME,
    ),
    panel=_panel,
    link_word="TROUBLE",
)
