"""The screen of the key walk: which key to press, what the last press sent, the keyboard with a sign on each key. Pure."""

from termprobe.plan.model import PRESS
from termprobe.profile.draw import draw
from termprobe.report.keyboard import COVERED, MISSING, WRONG, marks, request, states
from termprobe.session.fit import wrap
from termprobe.verdict.model import FAIL, PASS

STYLES = {COVERED: "class:pass", WRONG: "class:fail", MISSING: "class:fail", "asked": "class:cursor", "partly": "class:strong"}
"""Styles of the signs; a state that is not named has none."""
TEXT_ROWS = 4
"""Request, last press with its reason, a blank row."""


def press_lines(state, columns, rows):
    """Return what to press, what came last, and as much of the keyboard as there is room for."""
    lines = [[("class:strong", f" {text}")] for text in wrap(_request(state), columns - 2)]
    lines += last_lines(state, columns)
    drawn = keyboard_lines(state)
    room = rows - len(lines)
    if room >= len(drawn) + 1:
        lines.append([("", "")])
    return lines + drawn[:max(room, 0)]


def _request(state):
    if state.is_free:
        return "Press any key that is not covered yet, with a short pause between two keys, on the board's own keyboard."
    return f"Press {request(state.profile.keyboard, state.step)} once, and let go."


def last_lines(state, columns):
    """Return what the last press sent, and what was noticed of it."""
    last = next((state.plan.step(step_id) for step_id in reversed(state.trail) if state.plan.step(step_id).kind == PRESS), None)
    verdict = state.verdicts.get(last.id) if last else None
    if verdict is None or not verdict.answers:
        return [[("", " The last press is shown here, with its code and name.")]]
    word = {PASS: "right", FAIL: "WRONG"}.get(verdict.verdict, verdict.verdict)
    text = f"Last: {last.title.rsplit(' sends ', 1)[0]}: {word}: {'; '.join((verdict.reason, *verdict.evidence))}"
    style = {PASS: "class:pass", FAIL: "class:fail"}.get(verdict.verdict, "")
    return [[(style, f" {line}")] for line in wrap(text, columns - 2)[:2]]


def keyboard_lines(state):
    """Return the keyboard, each sign in its style; the row of notices says what the signs mean."""
    keyboard = state.profile.keyboard
    steps = [step for step in state.plan.steps if step.kind == PRESS]
    asked = None if state.is_free or state.step.kind != PRESS else state.step
    signs = {}
    for mark in marks(keyboard, states(keyboard, steps, state.verdicts, asked)):
        signs.setdefault(mark.line, []).append((mark.column, mark.sign, STYLES.get(mark.state, "")))
    return [_styled(line, signs.get(number, ())) for number, line in enumerate(draw(keyboard))]


def _styled(line, signs):
    """Return one row in fragments: the sign at each column in its style."""
    parts, place = [("", " ")], 0
    for column, sign, style in sorted(signs):
        parts += [("", line[place:column]), (style, sign)]
        place = column + 1
    return [*parts, ("", line[place:])]
