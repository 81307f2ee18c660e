"""The rows above the screen: board, progress and link; the step; its question and its caution.

Pure.
"""

from collections.abc import Iterator

from termprobe.session.draw.fit import columns_of, cut, fitted, harmless, pad, wrap
from termprobe.session.draw.rows import Row, Rows, plain
from termprobe.session.draw.step_list import VERDICT_MARKS, stage_number, stage_title
from termprobe.session.mode import Mode
from termprobe.session.mode_table import MODES
from termprobe.session.standing import is_any_key, seconds_left, shown_time
from termprobe.session.state import State
from termprobe.verdict.model import UNANSWERED

ROWS_BELOW = 3
"""Bytes, notice and keys."""
LEAST_BODY = 4
"""A question leaves so many rows to what is shown below it."""
ROWS_A_TITLE = 12
"""A title takes one row, and one more for each so many rows of the console."""
NAME_ROWS = 3
"""The board's name takes at most so many rows."""
GAP = "  "


def top(state: State, columns: int, rows: int) -> Rows:
    """Return board, progress and link, the step, and its question, for a console of that size."""
    mode = MODES[state.mode]
    lines = header_rows(state, columns)
    if mode.has_step:
        lines += title_rows(state, columns, rows)
    asking = MODES[state.lowest_mode] if mode.is_typing else mode
    if not asking.shows_question:
        return lines
    room = rows - len(lines) - ROWS_BELOW - LEAST_BODY
    return lines + _question_rows(state, mode, columns, room)


def _question_rows(state: State, mode: Mode, columns: int, room: int) -> Rows:
    """Return question and caution, whole where `room` rows hold them, else a row each at least."""
    caution = state.step.caution or ""
    asked = fitted(mode.question or state.step.question, columns - 2, max(room - bool(caution), 1))
    lines = [plain(f" {line}", "class:question") for line in asked]
    if caution:
        left = max(room - len(lines), 1)
        warned = fitted(f"! {caution}", columns - 2, left)
        lines += [plain(f" {line}", "class:fail") for line in warned]
    return lines


def header_rows(state: State, columns: int) -> Rows:
    """Return board, progress and link in one row.

    Where room is short the time left is dropped first, then the link, then most of the progress;
    the board's name never is: it takes more rows instead.
    """
    name = harmless(board_name(state))
    for progress, link in _beside_name(state):
        left = GAP.join(filter(None, (f" {name}", progress)))
        right = f"{link} " if link else ""
        if columns_of(left) + columns_of(right) + len(GAP) <= columns:
            return [plain(pad(left, columns - columns_of(right)) + right, "class:bar")]
    lines = wrap(name, columns - 1)[:NAME_ROWS]
    return [plain(pad(f" {line}", columns), "class:bar") for line in lines]


def board_name(state: State) -> str:
    """Return the board's number, and that it is none where it is simulated."""
    return f"PRACTICE {state.board}" if state.is_practice else state.board


def _beside_name(state: State) -> Iterator[tuple[str, str]]:
    """Yield (progress, link), ever shorter."""
    done, failed, left = state.course.progress()
    progress = f"{done} done, {failed} failed, {left} left"
    word = _link_word(state)
    link = f"{harmless(state.link)}{GAP}{word}"
    left_s = seconds_left(state)
    if left_s and left:
        yield f"{progress}, {shown_time(left_s)}", link
    yield progress, link
    yield progress, word
    yield progress, ""
    yield f"{left} left", ""
    yield "", ""


def _link_word(state: State) -> str:
    """Return how the link is, in a word."""
    if state.lost:
        return "GONE" if state.is_gone else "TROUBLE"
    return MODES[state.mode].link_word


def title_rows(state: State, columns: int, rows: int) -> Rows:
    """Return stage and title of the step in hand; where room is short the stage is dropped."""
    step = state.step
    if not step.id:
        return [plain(cut(f" {state.plan.title}", columns))]
    title = harmless(step.title) + _known_words(state)
    if is_any_key(state):
        title = "any key"
    for stage in (stage_title(state, step.stage), stage_number(state, step.stage)):
        if stage and columns_of(stage) + columns_of(title) + 4 <= columns:
            return [_title_row(f" {stage} - ", title)]
    most = 1 + rows // ROWS_A_TITLE
    return [_title_row(" ", line) for line in fitted(title, columns - 1, most)]


def _title_row(before: str, title: str) -> Row:
    return [("", before), ("class:strong", title)]


def _known_words(state: State) -> str:
    """Return the verdict that the step in hand has already, or nothing."""
    word = state.course.word(state.step.id)
    return "" if word == UNANSWERED else f"  [{VERDICT_MARKS[word]} {word} so far]"
