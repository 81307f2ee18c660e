"""Whether what came instead of a word is to be recorded is asked."""

from termprobe.journal.records import DIFFERS, KEYBOARD, Answer
from termprobe.notation import show
from termprobe.session.draw.rows import Rows, blank, paragraph
from termprobe.session.mode import Mode, ModeKey, View
from termprobe.session.modes.typed_back import take_code
from termprobe.session.react.answering import answered
from termprobe.session.react.asides import leave
from termprobe.session.shared_keys import INTERRUPT, way_back
from termprobe.session.state import Reaction, State


def _record(state: State, key: str) -> Reaction:
    """The word cannot be typed: what has come is the answer."""
    return answered(state.back(), Answer(DIFFERS, data=state.typed, strength=KEYBOARD))


def _take_code(state: State, code: int) -> Reaction:
    """Go back to the word: it is being typed."""
    return take_code(state.back().say(""), code)


def _panel(view: View) -> Rows:
    columns = view.columns
    came = show(view.state.typed) or "nothing"
    return [
        blank(),
        *paragraph(f"Came from the board's keyboard: {came}", columns),
        blank(),
        *paragraph(
            "Record that the word cannot be typed? y records it as a failure, n goes back.",
            columns,
            "class:strong",
        ),
    ]


MODE = Mode(
    name="confirming",
    title="record that the word cannot be typed?",
    keys=(
        ModeKey("y", _record, "record", "record what came, as a failure"),
        way_back("n c-g backspace", leave, "back", "back to the word, nothing recorded"),
        INTERRUPT,
    ),
    on_code=_take_code,
    panel=_panel,
)
