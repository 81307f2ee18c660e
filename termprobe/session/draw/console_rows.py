"""Draws the whole console: State and size -> rows of (style, text), never wider or higher than the console. Pure."""

from termprobe.plan.model import TYPED_BACK
from termprobe.session.draw import bars, panels, screen_rows
from termprobe.session.draw.fit import columns_of, cut
from termprobe.session.state import verdict_of

SIDE_BY_SIDE = 165
"""So many columns hold two screens of 80 columns."""
SCREEN_MODES = ("look", "marking", "play", "sending", "typed-back", "reply")


def draw(state, columns, rows):
    """Return `rows` rows of fragments, each at most `columns` columns wide."""
    if state.is_alone and state.mode in SCREEN_MODES and state.screen is not None:
        drawn = _alone(state, columns, rows)
    else:
        top, bottom = bars.top(state, columns, rows), bars.bottom(state, columns)
        body = _body(state, columns, max(rows - len(top) - len(bottom), 0))
        drawn = [*top, *body, *bottom]
        if len(drawn) > rows:
            drawn = [*top[: max(rows - 1, 0)], *bottom[-1:]]
    drawn = [_clipped(row, columns) for row in drawn[:rows]]
    return drawn + [[("", "")]] * (rows - len(drawn))


def first_shown(state, columns, rows):
    """Return the first row and column that the console shows of the screen, for scrolling from there."""
    if state.screen is None:
        return 0, 0
    top, bottom = bars.top(state, columns, rows), bars.bottom(state, columns)
    return _window(state, state.screen, max(rows - len(top) - len(bottom), 1), columns)


def _clipped(row, columns):
    kept, left = [], columns
    for style, text in row:
        text = cut(text, left)
        kept.append((style, text))
        left -= columns_of(text)
        if left <= 0:
            break
    return kept


def _body(state, columns, rows):
    drawn = panels.panel(state, columns, rows)
    if drawn is None:
        drawn = _screens(state, columns, rows)
    elif (
        state.screen is None and state.mode in bars.QUESTION_MODES and (board := _board_look(state))
    ):
        drawn = _task_and_board(state, drawn, board, columns, rows)
    return (drawn + [[("", "")]] * rows)[:rows]


def _task_and_board(state, drawn, board, columns, rows):
    """Practice: return what a step without a screen asks for, and the simulated board's screen beside it or in its place."""
    if columns >= SIDE_BY_SIDE:
        return _beside(
            [_clipped(row, columns // 2 - 1) for row in drawn],
            _boxed(board, rows, columns // 2, False),
            columns // 2,
        )
    return _one(state, board, rows, columns) if state.is_on_board else drawn


def _look(state, caption=""):
    is_marking = state.mode == "marking" or "marking" in state.before
    return screen_rows.Look(
        state.screen,
        caption,
        state.marks if is_marking else {},
        state.cursor if is_marking else None,
    )


def _window(state, screen, rows, columns):
    focus = state.cursor if state.mode == "marking" or "marking" in state.before else None
    return screen_rows.window(screen, rows, columns, state.scroll if focus is None else None, focus)


def _screens(state, columns, rows):
    """Return the expected screen, framed where there is room, and beside it whatever there is room for."""
    extra = (
        panels.typed_lines(state, columns)
        if state.step.kind == TYPED_BACK and state.mode != "play"
        else []
    )
    rows -= len(extra)
    board = _board_look(state)
    if board is not None and columns >= SIDE_BY_SIDE:
        half = columns // 2
        has_numbers = half >= screen_rows.framed_columns(state.screen, True)
        pair = _beside(
            *(
                _boxed(look, rows, half, has_numbers)
                for look in (_look(state, caption=_caption(state)), board)
            ),
            half,
        )
        return extra + pair + _list_below(state, columns, rows - len(pair))
    if board is not None and state.is_on_board:
        return extra + _one(state, board, rows, columns)
    return extra + _one(state, _look(state, caption=_caption(state)), rows, columns)


def _list_below(state, columns, rows):
    """Return the steps under two screens, where there is room."""
    return (
        [[("", "")], *[[("", " "), *row] for row in _side(state, columns - 1, rows - 1)]]
        if rows > 4
        else []
    )


def _board_look(state):
    screen = state.board_screen
    if screen is None or not state.is_practice:
        return None
    return screen_rows.Look(
        screen, f"the simulated board shows this; {screen_rows.cursor_in_words(screen)}"
    )


def _caption(state):
    parts = [
        "this must be seen",
        screen_rows.cursor_in_words(state.screen),
        screen_rows.renditions_in_words(state.screen),
    ]
    if state.screen.bells and state.mode != "play":
        parts.append(f"the bell rings {state.screen.bells} time{'s' * (state.screen.bells > 1)}")
    return "; ".join(part for part in parts if part)


def _one(state, look, rows, columns):
    """Return one screen: in a frame with the stages beside it, in a frame, or as much of it as there is room for."""
    height, width = len(look.screen.rows), len(look.screen.rows[0])
    has_numbers = columns >= screen_rows.framed_columns(look.screen, True)
    if rows >= height + 2 and columns >= width + screen_rows.FRAME_COLUMNS:
        boxed = _boxed(look, rows, columns, has_numbers)
        taken = screen_rows.framed_columns(look.screen, has_numbers) + 1
        return (
            _beside(boxed, _side(state, columns - taken, len(boxed)), taken)
            if columns - taken >= 14
            else boxed
        )
    shown = rows if rows >= height and columns >= width else max(rows - 1, 1)
    first = _window(state, look.screen, shown, columns)
    look = screen_rows.Look(look.screen, look.caption, look.marks, look.pointer, first)
    drawn = screen_rows.plain_rows(look, shown, columns)
    if shown < height or width > columns or rows > height:
        part = (
            f"rows {first[0]}-{first[0] + len(drawn) - 1} of {height} (g: all); "
            if shown < height
            else ""
        )
        return [[("class:caption", cut(f" {part}{look.caption}", columns))], *drawn]
    return drawn


def _boxed(look, rows, columns, has_numbers):
    height = len(look.screen.rows)
    if rows >= height + 2 and columns >= screen_rows.framed_columns(look.screen, has_numbers):
        return screen_rows.framed_rows(look, height, has_numbers)
    first = screen_rows.window(look.screen, rows - 1, columns)
    look = screen_rows.Look(look.screen, look.caption, look.marks, look.pointer, first)
    return [
        [("class:caption", cut(look.caption, columns - 1))],
        *screen_rows.plain_rows(look, rows - 1, columns - 1),
    ]


def _beside(left, right, columns):
    """Return two blocks beside each other, the left one filled up to `columns`."""
    rows = []
    for place in range(max(len(left), len(right))):
        first = left[place] if place < len(left) else []
        used = sum(columns_of(text) for _, text in first)
        rows.append(
            [
                *first,
                ("", " " * max(columns - used, 0)),
                *(right[place] if place < len(right) else []),
            ]
        )
    return rows


def _side(state, columns, rows):
    """Return the steps around the one in hand, with their verdicts, under the titles of their stages; or the groups that are played."""
    if state.mode == "play":
        return _group_list(state.play, columns, rows)
    titles = {stage.id: stage.title for stage in state.plan.stages}
    lines, here, stage = [], 0, None
    for step in state.plan.steps:
        if step.stage != stage:
            stage = step.stage
            lines.append(titles.get(stage, stage))
        here = len(lines) if step.id == state.step_id else here
        lines.append(step)
    first = min(max(here - rows // 2, 0), max(len(lines) - rows, 0))
    return [_side_row(state, line, columns) for line in lines[first : first + rows]]


def _side_row(state, line, columns):
    """Return the row of a step, or of a stage's title."""
    if isinstance(line, str):
        return [("class:strong", cut(line, columns))]
    word = verdict_of(state, line.id)
    mark = ">" if line.id == state.step_id else " "
    return [
        (
            {"pass": "class:pass", "fail": "class:fail"}.get(word, ""),
            cut(f"{mark}{panels.MARKS[word]} {line.title}", columns),
        )
    ]


def _group_list(play, columns, rows):
    lines = [[("class:strong", cut("groups", columns))]]
    for place, group in enumerate(play.groups, 1):
        mark = ">" if place == play.sent + 1 else "+" if place <= play.sent else " "
        lines.append(
            [("", cut(f"{mark}{'M' if play.mark == place else ' '}{group.label}", columns))]
        )
    first = min(max(play.sent + 1 - rows // 2, 0), max(len(lines) - rows, 0))
    return lines[first : first + rows]


def _alone(state, columns, rows):
    """Return the screen from the top of the console, and below it whatever rows are left."""
    look = _look(state)
    if state.is_practice and state.is_on_board and state.board_screen:
        look = screen_rows.Look(state.board_screen)
    first = _window(state, look.screen, rows, columns)
    look = screen_rows.Look(look.screen, "", look.marks, look.pointer, first)
    drawn = screen_rows.plain_rows(look, rows, columns)
    below = [
        bars.footer_row(state, columns),
        bars.notice_row(state, columns),
        bars.title_row(state, columns),
    ]
    return drawn + list(reversed(below[: max(rows - len(drawn), 0)]))
