"""The panel of the key walk: which key to press, what the last press sent, the keyboard with a mark on each key. Pure."""

from termprobe.plan.model import PRESS
from termprobe.profile.draw import caps, draw
from termprobe.report.keyboard_drawing import RIGHT, MISSING, WRONG, marks, request, states
from termprobe.session.draw.fit import MORE, wrap
from termprobe.session.state import is_any_key
from termprobe.verdict.model import FAIL, PASS

STYLES = {
    RIGHT: "class:pass",
    WRONG: "class:fail",
    MISSING: "class:fail",
    "asked": "class:cursor",
    "partly": "class:strong",
}
"""Styles of the marks; a state that is not named has none."""


def press_lines(state, columns, rows):
    """Return what to press, what came last, and as much of the keyboard as there is room for."""
    lines = [[("class:strong", f" {text}")] for text in wrap(_request(state), columns - 2)]
    lines += last_lines(state, columns)
    room = max(rows - len(lines), 0)
    drawn = keyboard_lines(state, columns - 2, room)
    if room >= len(drawn) + 1:
        lines.append([("", "")])
    return lines + drawn


def _request(state):
    if is_any_key(state):
        return "Press any key that is not pressed yet, with a short pause between two keys, on the board's own keyboard."
    return f"Press {request(state.profile.keyboard, state.step)} once, and let go."


def last_lines(state, columns):
    """Return what the last press sent, and what was noticed of it."""
    last = _last_press(state)
    verdict = state.verdicts.get(last.id) if last else None
    if verdict is None or not verdict.answers:
        return [[("", " The last press is shown here, with its code and name.")]]
    word = {PASS: "right", FAIL: "WRONG"}.get(verdict.verdict, verdict.verdict)
    text = f"Last: {last.title.rsplit(' sends ', 1)[0]}: {word}: {'; '.join((verdict.reason, *verdict.evidence))}"
    style = {PASS: "class:pass", FAIL: "class:fail"}.get(verdict.verdict, "")
    return [[(style, f" {line}")] for line in wrap(text, columns - 2)[:2]]


def _last_press(state):
    """Return the step of the last press, or None."""
    return next(
        (
            state.plan.step(step_id)
            for step_id in reversed(state.trail)
            if state.plan.step(step_id).kind == PRESS
        ),
        None,
    )


def keyboard_lines(state, columns, rows):
    """Return the keyboard, each mark in its style, in `columns` x `rows`; the row of notices says what the marks mean.

    A keyboard that is larger is shown around the key asked for, or around the last one pressed where any may be.
    """
    keyboard = state.profile.keyboard
    steps = [step for step in state.plan.steps if step.kind == PRESS]
    asked = None if is_any_key(state) or state.step.kind != PRESS else state.step
    lines, in_lines = draw(keyboard), {}
    for mark in marks(keyboard, states(keyboard, steps, state.verdicts, asked)):
        in_lines.setdefault(mark.line, []).append(
            (mark.column, mark.character, STYLES.get(mark.state, ""))
        )
    top, left = _corner(
        keyboard, asked or _last_press(state), (rows, columns), (len(lines), max(map(len, lines)))
    )
    return [
        _styled(line, in_lines.get(number, ()), left, columns) for number, line in enumerate(lines)
    ][top : top + rows]


def _corner(keyboard, step, room, size):
    """Return the first line and column to be shown so that the key of `step` is in the middle, where not all has room.

    Of a key wider than the room its right end is shown, where its mark stands.
    """
    cap = next(
        (cap for cap in caps(keyboard) if step is not None and cap.key.name == step.key), None
    )
    middle = (
        (cap.line + 1, cap.column + cap.width - 1 - min(cap.width, room[1] - 4) // 2)
        if cap
        else (0, 0)
    )
    return tuple(
        max(min(at - has // 2, whole - has), 0) for at, has, whole in zip(middle, room, size)
    )


def _styled(line, marks, left, columns):
    """Return one row in fragments: the mark at each column in its style; of the row only `columns` from `left` on."""
    line = line[:left] + MORE + line[left + 1 :] if left else line
    line = line if len(line) <= left + columns else line[: left + columns - 1] + MORE
    parts, place = [("", " ")], left
    for column, mark, style in sorted(marks):
        if left < column < left + columns - 1:
            parts += [("", line[place:column]), (style, mark)]
            place = column + 1
    return [*parts, ("", line[place:])]
