"""What differs is marked on the expected screen."""

from collections.abc import Callable, Iterable
from dataclasses import replace

from termprobe.journal.records import DIFFERS, Answer
from termprobe.session.draw.rows import Styled
from termprobe.session.mode import Mode, ModeKey
from termprobe.session.react import marked_cells
from termprobe.session.react.answering import (
    answered,
    begin_narrowing,
    choose,
    has_region_due,
)
from termprobe.session.react.marked_cells import CellIndex
from termprobe.session.react.typed_lines import asked
from termprobe.session.react.viewing import WAYS, turn
from termprobe.session.shared_keys import BESIDE_A_STEP, SCREEN_ALONE, way_back
from termprobe.session.state import KeyAction, Purpose, Reaction, State
from termprobe.terminal.screen import Screen


def _screen(state: State) -> Screen:
    """Return the screen that is marked; without one nobody gets here."""
    if state.screen is None:
        raise RuntimeError(f"{state.step.id} must have a screen to be marked")
    return state.screen


def _move(state: State, key: str) -> Reaction:
    """Move the marking cursor; it stays on the screen."""
    rows = _screen(state).rows
    down, right = WAYS[key]
    row = min(max(state.cursor[0] + down, 0), len(rows) - 1)
    column = min(max(state.cursor[1] + right, 0), len(rows[0]) - 1)
    return replace(state, cursor=(row, column), notice=""), ()


def _mark(cells: Callable[[State], Iterable[CellIndex]]) -> KeyAction:
    """Return the action that marks the cells that `cells(state)` gives, or takes the marks away."""

    def mark(state: State, key: str) -> Reaction:
        return replace(state, marks=marked_cells.toggled(state.marks, cells(state))), ()

    return mark


def _row(state: State) -> Iterable[CellIndex]:
    return marked_cells.row_cells(_screen(state), state.cursor[0])


def _column(state: State) -> Iterable[CellIndex]:
    return marked_cells.column_cells(_screen(state), state.cursor[1])


def _unmark(state: State, key: str) -> Reaction:
    """Take all marks away."""
    return replace(state, marks={}), ()


def _record(state: State, key: str) -> Reaction:
    """Record that the step differs, with what is marked."""
    seen = marked_cells.seen_rows(_screen(state), state.marks)
    return answered(state, Answer(DIFFERS, seen=seen, note=state.remark, offered=state.offered))


def _leave(state: State, key: str) -> Reaction:
    return replace(state.at("look"), marks={}, remark="", offered=()), ()


def _take_remark(state: State, text: str) -> Reaction:
    return replace(state.back(), remark=text.strip()), ()


def _take_seen(state: State, text: str) -> Reaction:
    """Take the characters seen from the marking cursor on, which moves behind them."""
    row, column = state.cursor
    found = marked_cells.typed(state.marks, _screen(state), state.cursor, text)
    last = len(_screen(state).rows[row]) - 1
    cursor = (row, min(column + len(text), last))
    return replace(state.back(), marks=found, cursor=cursor), ()


def _has_predictions(state: State) -> bool:
    return state.predictions is not None


def _from_cursor(state: State) -> str:
    return f" from row {state.cursor[0]}, column {state.cursor[1]} on"


SEEN = Purpose("Characters seen", _take_seen, _from_cursor)
REMARK = Purpose("What differs, in words", _take_remark)


def _hint(state: State) -> Styled:
    """Say where the marking cursor is, and what is marked."""
    told = (
        marked_cells.marks_in_words(state.marks) or "nothing yet; enter records a plain 'differs'"
    )
    words = f"at row {state.cursor[0]}, column {state.cursor[1]}; marked: {told}"
    if state.remark:
        words += f'; remark "{state.remark}"'
    return "class:notice", words


TURN = ModeKey(
    "v",
    turn,
    "turn",
    "turn between what is marked, what must be seen and the difference; in practice the board too",
)

MODE = Mode(
    name="marking",
    title="mark what differs",
    keys=(
        ModeKey(
            "up down left right pageup pagedown home end",
            _move,
            "",
            "move the marking cursor; page and home keys go to the edges",
        ),
        ModeKey(
            "space",
            _mark(lambda state: (state.cursor,)),
            "cell",
            "mark the cell, or take the mark away",
        ),
        ModeKey("enter", _record, "record", "record that the step differs, with what is marked"),
        ModeKey("r", _mark(_row), "row", "mark the whole row"),
        ModeKey("c", _mark(_column), "column", "mark the whole column"),
        ModeKey("t", asked(SEEN), "type", "type the characters that you see from here on"),
        ModeKey("z", _unmark, "none", "take all marks away"),
        ModeKey("+", asked(REMARK), "remark", "say in words what differs"),
        ModeKey(
            "p",
            choose,
            "pictures",
            "choose from the wrong screens that are predicted",
            is_useful=_has_predictions,
        ),
        ModeKey(
            "a",
            begin_narrowing,
            "by parts",
            "be asked, by yes and no, in which part of the screen anything is wrong",
            is_useful=has_region_due,
        ),
        SCREEN_ALONE,
        TURN,
        way_back("c-g backspace", _leave, "not so", "back to the question, nothing recorded"),
        *BESIDE_A_STEP,
    ),
    is_of_step=True,
    shows_screen=True,
    shows_question=True,
    shows_marks=True,
    hint=_hint,
)
