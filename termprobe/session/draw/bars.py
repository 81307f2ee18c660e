"""The rows below the screen: bytes, notices, keys.

Pure.
"""

from termprobe.notation import show, show_code
from termprobe.session.draw.fit import columns_of, cut, fitted, harmless, pad
from termprobe.session.draw.rows import Row, Rows, filled, plain
from termprobe.session.mode import ModeKey
from termprobe.session.mode_table import MODES
from termprobe.session.state import State

NOTICE_SHARE = 4
"""A notice takes at most one of so many rows of the console."""


def bottom(state: State, columns: int, rows: int) -> Rows:
    """Return bytes sent and come back, what there is to be said, and the keys.

    Where a line is typed it takes the room of one of them. `rows` are those of the console.
    """
    typing_row = MODES[state.mode].typing_row
    notice = notice_rows(state, columns, max(rows // NOTICE_SHARE, 1))
    if typing_row is None:
        told = [bytes_row(state, columns), *notice]
    elif state.notice:
        told = [*notice, typing_row(state, columns)]
    else:
        told = [bytes_row(state, columns), typing_row(state, columns)]
    return [*told, footer_row(state, columns)]


def bytes_row(state: State, columns: int) -> Row:
    """Return what the step sends, and what came back last, both in the notation."""
    came = _came_words(state, columns // 2 - 14)
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
    return f"received: {more}{' '.join(names) or 'nothing yet'}{error} "


def shown_bytes(data: bytes, columns: int) -> str:
    """Return `data` in the notation.

    Where it is too long, its start alone, with the number of all bytes.
    """
    text = show(data[: 4 * max(columns, 1)])
    if columns_of(text) <= columns:
        return text
    count = f" ({len(data)} bytes)"
    return cut(text, columns - len(count)) + count


def notice_rows(state: State, columns: int, most: int) -> Rows:
    """Return what there is to be said now, in at most so many rows."""
    mode = MODES[state.mode]
    style, words = mode.hint(state) or ("", mode.title)
    if state.notice:
        style, words = "class:notice", f"* {state.notice}"
    if columns_of(harmless(words)) < columns:
        return [plain(cut(f" {words}", columns), style)]
    return [plain(f" {line}", style) for line in fitted(words, columns - 1, most)]


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
