"""The rows above and below the screen: board, progress, link, question; bytes, notices, keys. Pure: State -> styled lines."""

from termprobe.notation import show, show_code
from termprobe.report.keyboard_drawing import legend
from termprobe.session import keymap
from termprobe.session.draw import panels
from termprobe.session.react import marked_cells
from termprobe.session.draw.fit import columns_of, cut, pad, wrap
from termprobe.session.state import is_any_key, progress, shown_time, time_left_s, verdict_of

QUESTION_ROWS, QUESTION_ROWS_ALONE = 3, 8
"""So many rows a question may take beside a screen, and without one."""
OTHER_ROWS = 6
"""Board, step, caption, bytes, notice and keys."""
QUESTION_MODES = ("look", "ask", "marking", "play", "sending", "typed-back", "reply", "measure")
PLAY_QUESTION = (
    "Send it group by group: the first screen that is wrong names the bytes that broke it."
)


def top(state, columns, rows):
    """Return board, progress and link, the step, and its question."""
    lines = [_header(state, columns), title_row(state, columns)]
    asking = state.before[0] if state.mode == "line" else state.mode
    if asking not in QUESTION_MODES:
        return lines[:1] if state.mode in ("opening", "end") else lines
    room = _question_room(state, rows)
    question = wrap(PLAY_QUESTION if state.mode == "play" else state.step.question, columns - 2)
    if len(question) > room:
        question[room - 1 :] = [cut(" ".join(question[room - 1 :]), columns - 2)]
    lines += [[("class:question", f" {text}")] for text in question]
    if state.step.caution:
        lines.append([("class:fail", cut(f" ! {state.step.caution}", columns))])
    return lines


def _question_room(state, rows):
    """Return how many rows the question may take: as many as leave the whole screen, or else its written part, in sight."""
    if state.screen is None:
        return QUESTION_ROWS_ALONE
    room = rows - OTHER_ROWS - bool(state.step.caution)
    beside_all = room + 1 - len(state.screen.rows)
    if beside_all >= QUESTION_ROWS - 1:
        return max(beside_all, QUESTION_ROWS)
    written = [row for row, text in enumerate(state.screen.rows) if text.strip(" ")] + [
        (state.screen.cursor or (0, 0))[0]
    ]
    return min(max(room - max(written) - 1, QUESTION_ROWS - 1), QUESTION_ROWS_ALONE)


def _header(state, columns):
    """Return board, progress and link in one row; where room is short the board's and the link's names give way."""
    done, failed, left = progress(state)
    left_s = time_left_s(state)
    middle = f"{done} done, {failed} failed, {left} left" + (
        f", {shown_time(left_s)}" if left_s and left else ""
    )
    word = _link_word(state)
    room = columns - columns_of(middle) - columns_of(word) - 8
    board = cut(f"{'PRACTICE ' if state.is_practice else ''}{state.board}", max(room * 3 // 5, 0))
    link = cut(state.link, max(room - columns_of(board), 0))
    text = f" {board}  {middle}"
    return [
        (
            "class:bar",
            pad(text, columns - columns_of(link) - columns_of(word) - 3) + f"{link}  {word} ",
        )
    ]


def _link_word(state):
    if state.mode == "lost" or state.lost:
        return "GONE"
    return ">> sending" if state.mode in ("sending", "waving") else "ready"


def title_row(state, columns):
    """Return stage and title of the step in hand."""
    step = state.step
    if not step.id:
        return [("", cut(f" {state.plan.title}", columns))]
    word = verdict_of(state, step.id)
    is_any = is_any_key(state)
    title = "any key" if is_any else step.title
    known = f"  [{panels.MARKS[word]} {word} so far]" if word != "unanswered" and not is_any else ""
    stage = cut(
        panels.stage_title(state, step.stage),
        max(columns - columns_of(title + known) - 4, columns // 2 - 4),
    )
    return [("", f" {stage} - "), ("class:strong", title), ("", known)]


def bottom(state, columns):
    """Return bytes sent and come back, what there is to be said or the line that is typed, and the keys."""
    if state.mode == "line":
        return (
            [bytes_row(state, columns), panels.line_row(state, columns), footer_row(state, columns)]
            if not state.notice
            else [
                notice_row(state, columns),
                panels.line_row(state, columns),
                footer_row(state, columns),
            ]
        )
    return [bytes_row(state, columns), notice_row(state, columns), footer_row(state, columns)]


def bytes_row(state, columns):
    """Return what the step sends, and what came back last, both in the notation."""
    came = _came_words(state, columns // 2 - 10)
    data = state.step.data
    if state.mode == "play":
        sent = f" {_play_words(state.play)}"
    else:
        sent = " sends: " + (
            shown_bytes(data, columns - columns_of(came) - 12) if data else "nothing"
        )
    return [("class:bytes", pad(sent, columns - columns_of(came) - 1)), ("class:bytes", f" {came}")]


def _came_words(state, columns):
    """Return as many of the last bytes that came back as there is room for, the latest last."""
    names = [show_code(code) for code in state.came]
    error = f" ({state.errors} error)" if state.errors else ""
    while columns_of(" ".join(names) + error) > columns and len(names) > 1:
        names = names[1:]
    more = "… " if len(names) < len(state.came) else ""
    return f"back: {more}{' '.join(names) or 'nothing yet'}{error} "


def _play_words(play):
    sent = f"sent: {play.groups[play.sent - 1].label}" if play.sent else "nothing sent"
    mark = "" if play.mark is None else f", mark after {play.mark}"
    return f"group {play.sent} of {len(play.groups)}{mark}; {sent}"


def _next_words(play):
    if play.sent == len(play.groups):
        return " all is sent"
    group = play.groups[play.sent]
    return f" next: {group.label}: {show(group.data[:200])}"


def shown_bytes(data, columns):
    """Return `data` in the notation, its start alone where it is too long, with the number of all bytes."""
    text = show(data[: 4 * max(columns, 1)])
    count = f" ({len(data)} bytes)"
    return text if columns_of(text) <= columns else cut(text, columns - len(count)) + count


def notice_row(state, columns):
    """Return what there is to be said now."""
    if state.notice:
        return [("class:notice", cut(f" * {state.notice}", columns))]
    if state.mode == "marking":
        told = (
            marked_cells.in_words(state.marks)
            if state.marks
            else "nothing yet; enter records a plain 'differs'"
        )
        remark = f'; remark "{state.remark}"' if state.remark else ""
        return [
            (
                "class:notice",
                cut(
                    f" at row {state.cursor[0]}, column {state.cursor[1]}; marked: {told}{remark}",
                    columns,
                ),
            )
        ]
    if state.mode == "play":
        return [("class:notice", cut(_next_words(state.play), columns))]
    if state.mode in ("look", "ask") and state.board_keys == "on":
        words = ", ".join(f"{key} {keymap.find(state.mode, key).label}" for key in "yn")
        return [
            ("class:notice", cut(f" answer here or on the board's own keyboard: {words}", columns))
        ]
    words = legend() if state.mode == "press" else keymap.MODES[state.mode].title
    return [("", cut(f" {words}", columns))]


def footer_row(state, columns):
    """Return the keys in order of importance, as many as there is room for; help is always among them."""
    keys = list(keymap.footer(state.mode, state.is_practice))
    last = [entry for entry in keys if entry[1] == "help"]
    keys = [entry for entry in keys if entry[1] != "help"]
    room = columns - 1 - sum(len(key) + len(label) + 3 for key, label in last)
    row = [("class:bar", " ")]
    for key, label in keys:
        room -= columns_of(key) + columns_of(label) + 3
        if room < 0:
            break
        row += [("class:bar class:key", key), ("class:bar", f" {label}  ")]
    for key, label in last:
        row += [("class:bar class:key", key), ("class:bar", f" {label}")]
    used = sum(columns_of(text) for _, text in row)
    return [*row, ("class:bar", " " * max(columns - used, 0))]
