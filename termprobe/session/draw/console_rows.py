"""Draws the whole console: the state in rows that are never wider or more than the console has.

Pure.
"""

import dataclasses

from termprobe.session.draw import bars
from termprobe.session.draw.dot_rows import dot_rows
from termprobe.session.draw.pages import page_of, pages_of
from termprobe.session.draw.pictures import (
    board_picture,
    is_turned,
    picture_in_sight,
    pictures_in_turn,
    screens_in_turn,
)
from termprobe.session.draw.rows import Rows, beside, blank, clipped, plain
from termprobe.session.draw.screen_block import block, first_in, is_framed, part_shown, parts
from termprobe.session.draw.screen_rows import Picture, framed_columns
from termprobe.session.draw.step_list import steps_around
from termprobe.session.draw.task_rows import task_rows
from termprobe.session.draw.top_rows import title_rows, top
from termprobe.session.mode import Panel, View
from termprobe.session.mode_table import MODES, mode_of
from termprobe.session.react.marked_cells import CellIndex
from termprobe.session.state import State

SIDE_BY_SIDE = 165
"""So many columns hold two screens of 80 columns."""
SIDE_COLUMNS = 14
"""A list beside a screen has at least so many columns."""
NEEDED_COLUMNS = 34
"""The same, where a list is needed; with fewer it stands below the screen."""
LEAST_OF_SCREEN = 8
"""So many rows a screen has at least above a list that is needed, where there are as many again."""
ROWS_BELOW = 4
"""A list below two screens has more rows than this."""
LEAST_SCROLLED = 2
"""A panel is scrolled only where it has so many rows."""
MORE_BELOW, MORE_ABOVE, MORE_BOTH = "  down: more", "  up: more", "  up, down: more"


def draw_console(state: State, columns: int, rows: int) -> Rows:
    """Return `rows` rows, each at most `columns` columns wide."""
    state = paged(state, columns, rows)
    screen = state.screen
    is_possible = MODES[state.mode].shows_screen and screen is not None
    if is_possible and state.is_alone and not is_turned(state):
        drawn = _alone(state, columns, rows)
    else:
        drawn = _with_bars(state, columns, rows)
    drawn = [clipped(row, columns) for row in drawn[:rows]]
    return _filled_up(drawn, rows)


def first_shown(state: State, columns: int, rows: int) -> CellIndex:
    """Return the first row and column that the console shows of its screen, or of its panel.

    Scrolling goes on from there.
    """
    view = _between_bars(state, columns, rows)
    drawn = _other_than_screens(view)
    if drawn is not None:
        return _first_of_panel(state, drawn, view.rows), 0
    if state.screen is None:
        return 0, 0
    room = view.rows - len(_above(view)) - len(_needed_below(view))
    return first_in(state, picture_in_sight(state), screens_in_turn(state), room, columns)


def paged(state: State, columns: int, rows: int) -> State:
    """Return the state with the number of pages that its text takes on a console of that size."""
    text = MODES[state.mode].text
    if text is None:
        return state
    view = _between_bars(state, columns, rows)
    pages = pages_of(text(view), view.rows)
    return dataclasses.replace(state, pages=pages, page=min(state.page, pages - 1))


def _filled_up(drawn: Rows, rows: int) -> Rows:
    return drawn + [blank()] * (rows - len(drawn))


def _between_bars(state: State, columns: int, rows: int) -> View:
    """Return the view of what stands between the bars."""
    taken = len(top(state, columns, rows)) + len(bars.bottom(state, columns, rows))
    return View(state, columns, max(rows - taken, 0), MODES[state.mode_beneath])


def _with_bars(state: State, columns: int, rows: int) -> Rows:
    """Return the bars with what is between them; where it is too much the first and the last."""
    above, below = top(state, columns, rows), bars.bottom(state, columns, rows)
    view = _between_bars(state, columns, rows)
    body = _filled_up(_body(view)[: view.rows], view.rows)
    drawn = [*above, *body, *below]
    if len(drawn) > rows:
        return [*above[: max(rows - 1, 0)], *below[-1:]]
    return drawn


def _body(view: View) -> Rows:
    """Return what stands between the bars: a panel, or screens."""
    state = view.state
    drawn = _other_than_screens(view)
    if drawn is not None:
        return _part_of_panel(state, drawn, view.rows)
    return [] if state.screen is None else _screens(view)


def _other_than_screens(view: View) -> Rows | None:
    """Return what is shown in the place of the expected screen, None where that is shown."""
    state = view.state
    panel = _panel(state)
    if panel is None and state.screen is not None:
        return None
    drawn = _task(view) if panel is None else panel(view)
    board = board_picture(state)
    if state.screen is None and MODES[state.mode].shows_question and board is not None:
        return _and_board(view, drawn, board)
    return drawn


def _first_of_panel(state: State, drawn: Rows, rows: int) -> int:
    """Return the first row that is shown of a panel that may be larger than its room."""
    last = len(drawn) - rows + 1 if len(drawn) > rows else 0
    return min((state.scroll or (0, 0))[0], last)


def _part_of_panel(state: State, drawn: Rows, rows: int) -> Rows:
    """Return as many rows of a panel as there is room for; the last says how to see the others."""
    if len(drawn) <= rows or rows < LEAST_SCROLLED:
        return drawn
    first = _first_of_panel(state, drawn, rows)
    words = MORE_BOTH
    if first == 0:
        words = MORE_BELOW
    elif first == len(drawn) - rows + 1:
        words = MORE_ABOVE
    return [*drawn[first : first + rows - 1], plain(words, "class:notice")]


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
    state, half = view.state, view.columns // 2
    if view.columns >= SIDE_BY_SIDE:
        left = [clipped(row, half - 1) for row in drawn]
        return beside(left, block(state, board, [board.screen], view.rows, half), half)
    return _one(view, board) if state.turns % 2 else drawn


def _above(view: View) -> Rows:
    """Return what the step asks for besides its screen."""
    if MODES[view.state.mode].is_part:
        return []
    return [*_asked(view), *dot_rows(view)]


def _screens(view: View) -> Rows:
    """Return the screen that is turned to, framed where there is room, and what else has room.

    Above it stands what the step asks for besides, below it a list that must be shown.
    """
    state = view.state
    above, below = _above(view), _needed_below(view)
    view = dataclasses.replace(view, rows=view.rows - len(above) - len(below))
    if not _shows_two(view):
        return [*above, *_one(view, picture_in_sight(state)), *below]
    in_turn = pictures_in_turn(state)
    turn = state.turns % len(in_turn)
    one, other = sorted((turn, (turn + 1) % len(in_turn)))
    return [*above, *_two(view, in_turn[one], in_turn[other]), *below]


def _shows_two(view: View) -> bool:
    """Return whether two of the screens are shown beside each other."""
    is_wide = view.columns >= SIDE_BY_SIDE
    return is_wide and view.state.is_practice and len(pictures_in_turn(view.state)) > 1


def _needed_below(view: View) -> Rows:
    """Return a list that must be shown and has no room beside the screen."""
    mode = MODES[view.state.mode]
    if not mode.is_side_needed:
        return []
    picture = picture_in_sight(view.state)
    taken = framed_columns(picture.screen, True) + 1
    is_beside = is_framed(picture, view.rows, view.columns) and not _shows_two(view)
    if is_beside and view.columns - taken >= NEEDED_COLUMNS:
        return []
    room = max(view.rows // 2, view.rows - LEAST_OF_SCREEN)
    return _side(dataclasses.replace(view, rows=room))[:room]


def _two(view: View, one: Picture, other: Picture) -> Rows:
    """Return two of the screens beside each other, the steps below."""
    state, half = view.state, view.columns // 2
    screens = screens_in_turn(state)
    left, right = (block(state, picture, screens, view.rows, half) for picture in (one, other))
    pair = beside(left, right, half)
    left_over = view.rows - len(pair)
    if left_over <= ROWS_BELOW or MODES[state.mode].is_side_needed:
        return pair
    listed = _side(dataclasses.replace(view, columns=view.columns - 1, rows=left_over - 1))
    return [*pair, blank(), *([("", " "), *row] for row in listed)]


def _side(view: View) -> Rows:
    """Return what stands beside a screen."""
    side = MODES[view.state.mode].side or steps_around
    return side(view)


def _one(view: View, picture: Picture) -> Rows:
    """Return one screen: in a frame, with a list beside it, or as much of it as has room."""
    screens = screens_in_turn(view.state)
    drawn = block(view.state, picture, screens, view.rows, view.columns)
    if not is_framed(picture, view.rows, view.columns):
        return drawn
    taken = framed_columns(picture.screen, True) + 1
    left_over = view.columns - taken
    if left_over < _least_beside(view.state):
        return drawn
    listed = _side(dataclasses.replace(view, columns=left_over, rows=len(drawn)))
    return beside(drawn, listed, taken)


def _least_beside(state: State) -> int:
    """Return how many columns a list beside a screen has at least."""
    if MODES[state.mode].is_side_needed:
        return NEEDED_COLUMNS
    return SIDE_COLUMNS


def _alone(state: State, columns: int, rows: int) -> Rows:
    """Return the screen from the top of the console, and below it whatever rows are left."""
    picture = picture_in_sight(state)
    part = part_shown(state, screens_in_turn(state), rows, columns)
    drawn = parts(picture, part, columns)
    left = rows - len(drawn)
    below = [
        *title_rows(state, columns, 0),
        *bars.notice_rows(state, columns, 1),
        bars.footer_row(state, columns),
    ]
    return drawn + below[max(len(below) - left, 0) :]
