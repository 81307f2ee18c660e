"""The board's own answer keys are proven; the builder tries them, or does without."""

from dataclasses import replace

from termprobe.journal.records import AS_EXPECTED
from termprobe.runner.answer_keys import word_of
from termprobe.session.draw.rows import Rows, blank, paragraph
from termprobe.session.messages import Note
from termprobe.session.mode import Mode, ModeKey, View
from termprobe.session.react.answering import BOARD_KEYS_NOTE
from termprobe.session.react.in_hand import take
from termprobe.session.shared_keys import AT_ANY_TIME, BOARD_KEYS
from termprobe.session.state import Reaction, State


def _go_on(state: State, board_keys: str) -> Reaction:
    """Go to the step; from now on the board's keys answer, or not."""
    after, requests = take(replace(state, board_keys=board_keys), state.step_id)
    return after, (Note(BOARD_KEYS_NOTE.format(board_keys)), *requests)


def _with_board_keys(state: State, key: str) -> Reaction:
    return _go_on(state, "on")


def _without_board_keys(state: State, key: str) -> Reaction:
    return _go_on(state, "off")


def _take_code(state: State, code: int) -> Reaction:
    """The board's key for `as expected` goes on as well."""
    if word_of(code) != AS_EXPECTED:
        return state, ()
    return _go_on(state, "on")


def _panel(view: View) -> Rows:
    columns = view.columns
    may = (
        "From now on you may answer on it: y as expected, n differs. "
        "This is on the board's screen as well."
    )
    now = "Press y on the board's keyboard, or here, to go on."
    return [
        blank(),
        *paragraph("The board's keyboard has proven y and n.", columns, "class:strong"),
        blank(),
        *paragraph(may, columns),
        blank(),
        *paragraph(now, columns, "class:strong"),
    ]


MODE = Mode(
    name="announced",
    title="try the board's own answer keys",
    keys=(
        ModeKey("y", _with_board_keys, "go on", "go on; answers may come from either keyboard"),
        ModeKey("n", _without_board_keys, "only here", "answer on this keyboard only"),
        BOARD_KEYS,
        *AT_ANY_TIME,
    ),
    on_code=_take_code,
    panel=_panel,
)
