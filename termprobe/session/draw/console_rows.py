"""Draws the whole console: the state in rows that are never wider or more than the console has.

Pure.
"""

import dataclasses

from termprobe.session.draw import bars
from termprobe.session.draw.fit import cut
from termprobe.session.draw.pages import page_of, pages_of
from termprobe.session.draw.rows import Rows, beside, blank, clipped, plain
from termprobe.session.draw.screen_rows import (
    FRAME_COLUMNS,
    Picture,
    cursor_in_words,
    framed_columns,
    framed_rows,
    plain_rows,
    renditions_in_words,
    window,
)
from termprobe.session.draw.step_list import steps_around
from termprobe.session.draw.task_rows import task_rows
from termprobe.session.mode import Panel, View
from termprobe.session.mode_table import MODES, mode_of
from termprobe.session.react.marked_cells import CellIndex
from termprobe.session.state import State
from termprobe.terminal.screen import UNKNOWN_CHARACTER, Screen

SIDE_BY_SIDE = 165
"""So many columns hold two screens of 80 columns."""
SIDE_COLUMNS = 14
"""A list beside a screen has at least so many columns."""
ROWS_BELOW = 4
"""A list below two screens has more rows than this."""


def draw_console(state: State, columns: int, rows: int) -> Rows:
    """Return `rows` rows, each at most `columns` columns wide."""
    state = paged(state, columns, rows)
    screen = state.screen
    if state.is_alone and MODES[state.mode].shows_screen and screen is not None:
        drawn = _alone(state, screen, columns, rows)
    else:
        drawn = _with_bars(state, columns, rows)
    drawn = [clipped(row, columns) for row in drawn[:rows]]
    return _filled_up(drawn, rows)


def first_shown(state: State, columns: int, rows: int) -> CellIndex:
    """Return the first row and column that the console shows of the screen.

    Scrolling goes on from there.
    """
    if state.screen is None:
        return 0, 0
    top, bottom = bars.top(state, columns, rows), bars.bottom(state, columns)
    return _window(state, state.screen, max(rows - len(top) - len(bottom), 1), columns)


def paged(state: State, columns: int, rows: int) -> State:
    """Return the state with the number of pages that its text takes on a console of that size."""
    text = MODES[state.mode].text
    if text is None:
        return state
    top, bottom = bars.top(state, columns, rows), bars.bottom(state, columns)
    room = max(rows - len(top) - len(bottom), 1)
    pages = pages_of(text(View(state, columns, room, MODES[state.mode_beneath])), room)
    return dataclasses.replace(state, pages=pages, page=min(state.page, pages - 1))


def _filled_up(drawn: Rows, rows: int) -> Rows:
    return drawn + [blank()] * (rows - len(drawn))


def _with_bars(state: State, columns: int, rows: int) -> Rows:
    """Return the bars with what is between them; where it is too much the first and the last."""
    top, bottom = bars.top(state, columns, rows), bars.bottom(state, columns)
    room = max(rows - len(top) - len(bottom), 0)
    view = View(state, columns, room, MODES[state.mode_beneath])
    body = _filled_up(_body(view)[:room], room)
    drawn = [*top, *body, *bottom]
    if len(drawn) > rows:
        return [*top[: max(rows - 1, 0)], *bottom[-1:]]
    return drawn


def _body(view: View) -> Rows:
    """Return what stands between the bars: a panel, or screens."""
    state = view.state
    panel = _panel(state)
    if panel is None and state.screen is not None:
        return _screens(view, state.screen)
    drawn = _task(view) if panel is None else panel(view)
    board = _board_picture(state)
    if state.screen is None and MODES[state.mode].shows_question and board is not None:
        return _and_board(view, drawn, board)
    return drawn


def _panel(state: State) -> Panel | None:
    """Return the panel that takes the place of the screen, or None."""
    mode = MODES[state.mode]
    shown = MODES[state.mode_beneath] if mode.is_typing else mode
    of_step = mode_of(state.step)
    if shown.text is not None:
        return page_of(shown.text)
    if shown.panel is None and of_step.is_panel_kept:
        return of_step.panel
    return shown.panel


def _task(view: View) -> Rows:
    """Return what a step without a screen asks for."""
    return task_rows(view.state.step, _asked(view), view.columns)


def _asked(view: View) -> Rows:
    """Return what a step of this kind asks for beside its question."""
    task = mode_of(view.state.step).task
    return [] if task is None else task(view)


def _and_board(view: View, drawn: Rows, board: Picture) -> Rows:
    """Practice: return what is drawn, and the simulated board beside it or in its place."""
    half = view.columns // 2
    if view.columns >= SIDE_BY_SIDE:
        left = [clipped(row, half - 1) for row in drawn]
        return beside(left, _boxed(board, view.rows, half, False), half)
    return _one(view, board) if view.state.is_on_board else drawn


def _shows_marks(state: State) -> bool:
    return any(MODES[name].shows_marks for name in (state.mode, *state.beneath))


def _window(state: State, screen: Screen, rows: int, columns: int) -> CellIndex:
    if _shows_marks(state):
        return window(screen, rows, columns, focus=state.cursor)
    return window(screen, rows, columns, scroll=state.scroll)


def _screens(view: View, screen: Screen) -> Rows:
    """Return the expected screen, framed where there is room, and whatever there is room for.

    Above it stands what the step asks for besides.
    """
    state, columns = view.state, view.columns
    above = [] if MODES[state.mode].is_part else _asked(view)
    view = dataclasses.replace(view, rows=view.rows - len(above))
    expected = _expected_picture(state, screen, _caption(state, screen))
    board = _board_picture(state)
    if board is None:
        return above + _one(view, expected)
    if columns >= SIDE_BY_SIDE:
        return above + _two(view, expected, board)
    return above + _one(view, board if state.is_on_board else expected)


def _two(view: View, expected: Picture, board: Picture) -> Rows:
    """Return the expected screen and the simulated board's beside each other, the steps below."""
    half = view.columns // 2
    has_numbers = half >= framed_columns(expected.screen, True)
    left = _boxed(expected, view.rows, half, has_numbers)
    right = _boxed(board, view.rows, half, has_numbers)
    pair = beside(left, right, half)
    left_over = view.rows - len(pair)
    if left_over <= ROWS_BELOW:
        return pair
    listed = _side(dataclasses.replace(view, columns=view.columns - 1, rows=left_over - 1))
    return [*pair, blank(), *([("", " "), *row] for row in listed)]


def _side(view: View) -> Rows:
    """Return what stands beside a screen."""
    side = MODES[view.state.mode].side or steps_around
    return side(view)


def _expected_picture(state: State, screen: Screen, caption: str = "") -> Picture:
    if _shows_marks(state):
        return Picture(screen, caption, state.marks, state.cursor)
    return Picture(screen, caption)


def _board_picture(state: State) -> Picture | None:
    """Practice: return the simulated board's screen as it is to be drawn."""
    screen = state.board_screen
    if screen is None or not state.is_practice:
        return None
    return Picture(screen, f"the simulated board shows this; {cursor_in_words(screen)}")


def _caption(state: State, screen: Screen) -> str:
    parts = [_what_is_shown(state), cursor_in_words(screen), renditions_in_words(screen)]
    if screen.bells and not MODES[state.mode].is_part:
        parts.append(f"the bell rings {screen.bells} time{'s' * (screen.bells > 1)}")
    return "; ".join(part for part in parts if part)


def _what_is_shown(state: State) -> str:
    """Return whose screen it is: the expected one, but for what the builder typed as seen."""
    is_typed = any(seen != UNKNOWN_CHARACTER for seen in state.marks.values())
    if is_typed and _shows_marks(state):
        return "what you typed is shown as seen, all else as it must be"
    return "this must be seen"


def _one(view: View, picture: Picture) -> Rows:
    """Return one screen: in a frame, with a list beside it, or as much of it as has room."""
    if view.rows < picture.height + 2 or view.columns < picture.width + FRAME_COLUMNS:
        return _bare(view, picture)
    has_numbers = view.columns >= framed_columns(picture.screen, True)
    boxed = _boxed(picture, view.rows, view.columns, has_numbers)
    taken = framed_columns(picture.screen, has_numbers) + 1
    left_over = view.columns - taken
    if left_over < SIDE_COLUMNS:
        return boxed
    listed = _side(dataclasses.replace(view, columns=left_over, rows=len(boxed)))
    return beside(boxed, listed, taken)


def _bare(view: View, picture: Picture) -> Rows:
    """Return one screen without a frame, or a part of it; a caption where there is room for it."""
    rows, columns = view.rows, view.columns
    is_whole = rows >= picture.height and columns >= picture.width
    shown = rows if is_whole else max(rows - 1, 1)
    first = _window(view.state, picture.screen, shown, columns)
    drawn = plain_rows(dataclasses.replace(picture, first=first), shown, columns)
    if shown >= picture.height and picture.width <= columns and rows <= picture.height:
        return drawn
    part = ""
    if shown < picture.height:
        last = first[0] + len(drawn) - 1
        part = f"rows {first[0]}-{last} of {picture.height} (g: all); "
    return [plain(cut(f" {part}{picture.caption}", columns), "class:caption"), *drawn]


def _boxed(picture: Picture, rows: int, columns: int, has_numbers: bool) -> Rows:
    """Return one screen in a frame; without room for that as much of it as has room."""
    if rows >= picture.height + 2 and columns >= framed_columns(picture.screen, has_numbers):
        return framed_rows(picture, picture.height, has_numbers)
    first = window(picture.screen, rows - 1, columns)
    drawn = plain_rows(dataclasses.replace(picture, first=first), rows - 1, columns - 1)
    return [plain(cut(picture.caption, columns - 1), "class:caption"), *drawn]


def _alone(state: State, screen: Screen, columns: int, rows: int) -> Rows:
    """Return the screen from the top of the console, and below it whatever rows are left."""
    picture = _expected_picture(state, screen)
    if state.is_practice and state.is_on_board and state.board_screen:
        picture = Picture(state.board_screen)
    first = _window(state, picture.screen, rows, columns)
    drawn = plain_rows(dataclasses.replace(picture, caption="", first=first), rows, columns)
    below = [
        bars.footer_row(state, columns),
        bars.notice_row(state, columns),
        bars.title_row(state, columns),
    ]
    return drawn + below[: max(rows - len(drawn), 0)][::-1]
