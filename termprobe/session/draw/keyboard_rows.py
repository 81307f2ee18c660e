"""The board's keyboard drawn on the console, with a mark on each key for what it has shown.

Pure.
"""

from termprobe.plan.model import KeyPress
from termprobe.profile.draw import caps, draw_keyboard
from termprobe.profile.model import Keyboard
from termprobe.report.keyboard_drawing import (
    ALL_MISSING,
    ASKED,
    PARTLY,
    RIGHT,
    WRONG,
    KeyMark,
    marks,
    states,
)
from termprobe.session.draw.fit import MORE
from termprobe.session.draw.rows import Row, Rows
from termprobe.session.standing import is_any_key
from termprobe.session.state import State

MARK_STYLES = {
    RIGHT: "class:pass",
    WRONG: "class:fail",
    ALL_MISSING: "class:fail",
    ASKED: "class:cursor",
    PARTLY: "class:strong",
}
"""Styles of the marks; a state that is not named has none."""
EDGE = 4
"""So many columns of a key wider than the room stay free beside its mark."""


def keyboard_rows(state: State, columns: int, rows: int) -> Rows:
    """Return the keyboard, each mark in its style, in `columns` x `rows`.

    The row of notices says what the marks mean. A keyboard that is larger is shown around the key
    asked for, or around the last one pressed where any may be.
    """
    keyboard = state.profile.keyboard
    if keyboard is None:
        return []
    asked = _asked(state)
    lines = draw_keyboard(keyboard)
    top, left = _middle(keyboard, asked or state.course.last_press(), columns)
    top = _corner(top, rows, len(lines))
    left = _corner(left, columns, max(map(len, lines), default=0))
    in_lines = _marks_by_line(state, keyboard, asked)
    return [
        _styled(line, in_lines.get(number, []), left, columns)
        for number, line in enumerate(lines[top : top + rows], top)
    ]


def _asked(state: State) -> KeyPress | None:
    """Return the press that is asked for, or None."""
    step = state.step
    return step if isinstance(step, KeyPress) and not is_any_key(state) else None


def _marks_by_line(
    state: State, keyboard: Keyboard, asked: KeyPress | None
) -> dict[int, list[KeyMark]]:
    """Return the marks that stand in each line, from left to right."""
    presses = [step for step in state.plan.steps if isinstance(step, KeyPress)]
    verdicts = {step.id: step for step in state.course.verdicts.steps}
    found: dict[int, list[KeyMark]] = {}
    for mark in marks(keyboard, states(keyboard, presses, verdicts, asked)):
        found.setdefault(mark.line, []).append(mark)
    return {line: sorted(its, key=lambda mark: mark.column) for line, its in found.items()}


def _middle(keyboard: Keyboard, step: KeyPress | None, columns: int) -> tuple[int, int]:
    """Return the line and the column that are to be in the middle, so that the key of `step` is.

    Of a key wider than the room its right end is shown, where its mark stands.
    """
    for cap in caps(keyboard):
        if step is not None and cap.key.name == step.press.key:
            shown = min(cap.width, columns - EDGE)
            return cap.line + 1, cap.column + cap.width - 1 - shown // 2
    return 0, 0


def _corner(middle: int, room: int, size: int) -> int:
    """Return the first of `size` lines or columns that is shown where not all has room."""
    return max(min(middle - room // 2, size - room), 0)


def _styled(line: str, its: list[KeyMark], left: int, columns: int) -> Row:
    """Return one row: the marks in their styles; of the line only `columns` from `left` on."""
    end = left + columns
    if left:
        line = line[:left] + MORE + line[left + 1 :]
    if len(line) > end:
        line = line[: end - 1] + MORE
    row, start = [("", " ")], left
    for mark in its:
        if left < mark.column < end - 1:
            row.append(("", line[start : mark.column]))
            row.append((MARK_STYLES.get(mark.state, ""), mark.state.mark))
            start = mark.column + 1
    return [*row, ("", line[start:])]
