"""The screens that are shown in turn: expected, as seen, and the difference between these.

Each has a caption and a frame of its own, so that they can be told apart without colour. Pure.
"""

import re
from collections.abc import Collection, Iterable

from termprobe.session.draw.screen_rows import (
    DIFFERENCE_FRAME,
    SEEN_FRAME,
    Picture,
    cursor_in_words,
    renditions_in_words,
)
from termprobe.session.mode_table import MODES
from termprobe.session.react.marked_cells import CellIndex, marks_in_words, seen_rows
from termprobe.session.state import State
from termprobe.terminal.dots import dots_in_words
from termprobe.terminal.predicted import Prediction
from termprobe.terminal.screen import Screen, differences

UNLIKE, ALIKE = "X", "."
"""How a cell of the difference is shown."""
MOST_ROWS = 4
"""Cells in more rows than this are only counted."""


MOST_CELLS = 3
"""Beside a list more cells than these are only counted."""


def shows_marks(state: State) -> bool:
    """Return whether marks and the marking cursor are shown."""
    return any(MODES[name].shows_marks for name in (state.mode, *state.beneath))


def prediction_shown(state: State) -> Prediction | None:
    """Return the predicted wrong screen that the builder looks at, or None."""
    names = (state.mode, *state.beneath)
    if any(MODES[name].shows_prediction for name in names):
        return state.prediction
    return None


def rows_to_compare(state: State) -> set[int]:
    """Return the rows in which the predicted wrong screen differs; none where there is none."""
    prediction = prediction_shown(state)
    if prediction is None or state.screen is None:
        return set()
    return {cell.row for cell in differences(state.screen.rows, prediction.screen.rows)}


def picture_in_sight(state: State) -> Picture:
    """Return the one that the builder has turned to; there must be a screen."""
    found = pictures_in_turn(state)
    return found[state.turns % len(found)]


def is_turned(state: State) -> bool:
    """Return whether the builder has turned to another than the first of them."""
    found = pictures_in_turn(state)
    return bool(found) and state.turns % len(found) > 0


def pictures_in_turn(state: State) -> list[Picture]:
    """Return all that can be turned to, the first one first.

    That is the expected screen, or what the builder has marked on it; none where there is no
    screen at all.
    """
    board, expected = board_picture(state), state.screen
    if expected is None:
        return [] if board is None else [board]
    found = [_expected_picture(state, expected)]
    seen = None if board is None else board.screen
    if shows_marks(state) and state.marks:
        found.insert(0, _marked_picture(state, expected))
        seen = _as_marked(state, expected)
    prediction = prediction_shown(state)
    if prediction is not None:
        found.insert(0, _predicted_picture(state, expected, prediction))
        seen = prediction.screen
    if board is not None:
        found.insert(1, board)
    if seen is not None:
        found.append(difference_picture(expected, seen))
    return found


def screens_in_turn(state: State) -> list[Screen]:
    """Return the screens of all these: of each the same part is shown."""
    return [picture.screen for picture in pictures_in_turn(state)]


def _expected_picture(state: State, screen: Screen) -> Picture:
    parts = ["this must be seen", cursor_in_words(screen), renditions_in_words(screen)]
    if screen.bells and not MODES[state.mode].is_part:
        parts.append(f"the bell rings {screen.bells} time{'s' * (screen.bells > 1)}")
    caption = "; ".join(part for part in parts if part)
    return Picture(screen, caption, pointer=_pointer(state))


def _pointer(state: State) -> CellIndex | None:
    return state.cursor if shows_marks(state) else None


def _marked_picture(state: State, screen: Screen) -> Picture:
    """Return the expected screen as the builder sees it, by what is marked."""
    caption = f"as seen: unlike at {_where(state.marks)}"
    return Picture(screen, caption, state.marks, state.cursor, frame=SEEN_FRAME)


def _predicted_picture(state: State, expected: Screen, prediction: Prediction) -> Picture:
    """Return a predicted wrong screen, all cells marked that are not as they must be."""
    seen = prediction.screen
    cells = differences(expected.rows, seen.rows)
    marks = {(cell.row, cell.column): cell.seen for cell in cells}
    parts = [f"picture {state.picked + 1}", cursor_in_words(seen)]
    if marks:
        parts.insert(1, f"unlike {_where_in_short(marks)}")
    if seen.bells != expected.bells:
        parts.append(f"bells: {seen.bells}, not {expected.bells}")
    caption = "; ".join(filter(None, parts))
    return Picture(seen, caption, marks, frame=SEEN_FRAME)


def _where_in_short(cells: Collection[CellIndex]) -> str:
    """Return where cells are, of more than a few only how many."""
    if len(cells) <= MOST_CELLS:
        return f"at {marks_in_words(cells)}"
    rows = {row for row, _ in cells}
    return f"in {len(cells)} cells in {len(rows)} row{'s' * (len(rows) > 1)}"


def _as_marked(state: State, screen: Screen) -> Screen:
    """Return the screen that the builder has marked; its cursor is taken for the expected one."""
    return Screen(seen_rows(screen, state.marks) or screen.rows, screen.cursor)


def board_picture(state: State) -> Picture | None:
    """Practice: return the simulated board's screen as it is to be drawn."""
    screen = state.board_screen
    if screen is None or not state.is_practice:
        return None
    parts = [cursor_in_words(screen), *dots_in_words(screen.misdrawn)]
    caption = "; ".join(["as seen: the simulated board shows this", *filter(None, parts)])
    return Picture(screen, caption, frame=SEEN_FRAME)


def difference_picture(expected: Screen, seen: Screen) -> Picture:
    """Return where the two differ: an X for each such cell, a dot where both show the same."""
    cells = {
        (row, column): UNLIKE
        for row, texts in enumerate(zip(expected.rows, seen.rows, strict=False))
        for column, (one, other) in enumerate(zip(*texts, strict=False))
        if one != other
    }
    alike = tuple(_dotted(text) for text in expected.rows)
    caption = "difference: none, all cells are alike"
    if cells:
        caption = f"difference: {UNLIKE} at {_where(cells)}"
    caption += _cursor_moved(expected, seen)
    rows = seen_rows(Screen(alike, None), cells) or alike
    return Picture(Screen(rows, None), caption, cells, frame=DIFFERENCE_FRAME)


def _dotted(text: str) -> str:
    """Return a row with a dot for each character."""
    return re.sub("[^ ]", ALIKE, text)


def _cursor_moved(expected: Screen, seen: Screen) -> str:
    if seen.cursor == expected.cursor or seen.cursor is None or expected.cursor is None:
        return ""
    where, wanted = (cursor_in_words(screen).removeprefix("cursor ") for screen in (seen, expected))
    return f"; cursor seen at {where}, not {wanted}"


def _where(cells: Iterable[CellIndex]) -> str:
    """Return where cells are, in words; of many only how many."""
    cells = list(cells)
    rows = {row for row, _ in cells}
    if len(rows) > MOST_ROWS:
        return f"{len(cells)} cells in {len(rows)} rows"
    return marks_in_words(cells)
