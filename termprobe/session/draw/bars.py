"""The rows above and below the screen: board, progress, link, question; bytes, notices, keys.

Pure.
"""

from termprobe.notation import show, show_code
from termprobe.session.draw.fit import columns_of, cut, pad, wrap
from termprobe.session.draw.rows import Row, Rows, filled, plain
from termprobe.session.draw.step_list import VERDICT_MARKS, stage_title
from termprobe.session.mode import ModeKey
from termprobe.session.mode_table import MODES
from termprobe.session.standing import is_any_key, seconds_left, shown_time
from termprobe.session.state import State
from termprobe.terminal.screen import Screen
from termprobe.verdict.model import UNANSWERED

QUESTION_ROWS, QUESTION_ROWS_ALONE = 3, 8
"""So many rows a question may take beside a screen, and without one."""
OTHER_ROWS = 6
"""Board, step, caption, bytes, notice and keys."""
GAPS = 8
"""So many blanks stand between the parts of the first row."""


def top(state: State, columns: int, rows: int) -> Rows:
    """Return board, progress and link, the step, and its question, for a console of that size."""
    mode = MODES[state.mode]
    lines = [_header(state, columns)]
    if mode.has_step:
        lines.append(title_row(state, columns))
    asking = MODES[state.lowest_mode] if mode.is_typing else mode
    if not asking.shows_question:
        return lines
    question = mode.question or state.step.question
    lines += _question(question, columns - 2, _question_room(state, rows))
    if state.step.caution:
        lines.append(plain(cut(f" ! {state.step.caution}", columns), "class:fail"))
    return lines


def _question(question: str, columns: int, room: int) -> Rows:
    """Return the question in at most `room` rows, its end cut off where it is longer."""
    lines = wrap(question, columns)
    if len(lines) > room:
        lines[room - 1 :] = [cut(" ".join(lines[room - 1 :]), columns)]
    return [plain(f" {line}", "class:question") for line in lines]


def _question_room(state: State, rows: int) -> int:
    """Return how many rows the question may take.

    As many as leave the whole screen, or else its written part, in sight.
    """
    if state.screen is None:
        return QUESTION_ROWS_ALONE
    room = rows - OTHER_ROWS - bool(state.step.caution)
    beside_all = room + 1 - len(state.screen.rows)
    if beside_all >= QUESTION_ROWS - 1:
        return max(beside_all, QUESTION_ROWS)
    beside_written = room - _last_written(state.screen) - 1
    return min(max(beside_written, QUESTION_ROWS - 1), QUESTION_ROWS_ALONE)


def _last_written(screen: Screen) -> int:
    """Return the last row on which something is written, or the cursor stands."""
    written = [row for row, text in enumerate(screen.rows) if text.strip(" ")]
    cursor_row, _ = screen.cursor or (0, 0)
    return max([*written, cursor_row])


def _link_word(state: State) -> str:
    """Return how the link is, in a word."""
    if state.lost:
        return "GONE" if state.is_gone else "TROUBLE"
    return MODES[state.mode].link_word


def _header(state: State, columns: int) -> Row:
    """Return board, progress and link in one row.

    Where room is short the board's and the link's names give way.
    """
    middle = _progress_words(state)
    word = _link_word(state)
    room = columns - columns_of(middle) - columns_of(word) - GAPS
    name = f"PRACTICE {state.board}" if state.is_practice else state.board
    board = cut(name, max(room * 3 // 5, 0))
    link = cut(state.link, max(room - columns_of(board), 0))
    left = pad(f" {board}  {middle}", columns - columns_of(link) - columns_of(word) - 3)
    return plain(f"{left}{link}  {word} ", "class:bar")


def _progress_words(state: State) -> str:
    done, failed, left = state.course.progress()
    left_s = seconds_left(state)
    words = f"{done} done, {failed} failed, {left} left"
    return f"{words}, {shown_time(left_s)}" if left_s and left else words


def title_row(state: State, columns: int) -> Row:
    """Return stage and title of the step in hand."""
    step = state.step
    if not step.id:
        return plain(cut(f" {state.plan.title}", columns))
    title, known = step.title, _known_words(state)
    if is_any_key(state):
        title, known = "any key", ""
    room = max(columns - columns_of(title + known) - 4, columns // 2 - 4)
    stage = cut(stage_title(state, step.stage), room)
    return [("", f" {stage} - "), ("class:strong", title), ("", known)]


def _known_words(state: State) -> str:
    """Return the verdict that the step in hand has already, or nothing."""
    word = state.course.word(state.step.id)
    return "" if word == UNANSWERED else f"  [{VERDICT_MARKS[word]} {word} so far]"


def bottom(state: State, columns: int) -> Rows:
    """Return bytes sent and come back, what there is to be said, and the keys.

    Where a line is typed it takes the room of one of them.
    """
    typing_row = MODES[state.mode].typing_row
    if typing_row is None:
        told = [bytes_row(state, columns), notice_row(state, columns)]
    elif state.notice:
        told = [notice_row(state, columns), typing_row(state, columns)]
    else:
        told = [bytes_row(state, columns), typing_row(state, columns)]
    return [*told, footer_row(state, columns)]


def bytes_row(state: State, columns: int) -> Row:
    """Return what the step sends, and what came back last, both in the notation."""
    came = _came_words(state, columns // 2 - 10)
    sent = _sent_words(state, columns - columns_of(came) - 12)
    return [
        ("class:bytes", pad(f" {sent}", columns - columns_of(came) - 1)),
        ("class:bytes", f" {came}"),
    ]


def _sent_words(state: State, columns: int) -> str:
    words = MODES[state.mode].sent_words(state)
    if words:
        return words
    data = state.step.data
    return f"sends: {shown_bytes(data, columns) if data else 'nothing'}"


def _came_words(state: State, columns: int) -> str:
    """Return as many of the last bytes that came back as there is room for, the latest last."""
    names = [show_code(code) for code in state.came]
    error = f" ({state.errors} error)" if state.errors else ""
    while columns_of(" ".join(names) + error) > columns and len(names) > 1:
        names = names[1:]
    more = "… " * (len(names) < len(state.came))
    return f"back: {more}{' '.join(names) or 'nothing yet'}{error} "


def shown_bytes(data: bytes, columns: int) -> str:
    """Return `data` in the notation.

    Where it is too long, its start alone, with the number of all bytes.
    """
    text = show(data[: 4 * max(columns, 1)])
    if columns_of(text) <= columns:
        return text
    count = f" ({len(data)} bytes)"
    return cut(text, columns - len(count)) + count


def notice_row(state: State, columns: int) -> Row:
    """Return what there is to be said now."""
    mode = MODES[state.mode]
    if state.notice:
        return plain(cut(f" * {state.notice}", columns), "class:notice")
    style, words = mode.hint(state) or ("", mode.title)
    return plain(cut(f" {words}", columns), style)


def footer_row(state: State, columns: int) -> Row:
    """Return the keys, the important ones first, as many as there is room for.

    Help is always among them.
    """
    keys = MODES[state.mode].footer(state)
    last = [entry for entry in keys if entry.is_always_shown]
    room = columns - 1 - sum(_columns_of_key(entry) for entry in last)
    row = plain(" ", "class:bar")
    for entry in keys:
        if entry.is_always_shown:
            continue
        room -= _columns_of_key(entry)
        if room < 0:
            break
        row += [("class:bar class:key", entry.footer_name), ("class:bar", f" {entry.label}  ")]
    for entry in last:
        row += [("class:bar class:key", entry.footer_name), ("class:bar", f" {entry.label}  ")]
    return filled(row, columns, "class:bar")


def _columns_of_key(entry: ModeKey) -> int:
    return columns_of(entry.footer_name) + columns_of(entry.label) + 3
