"""Draws plans and pictures as text: bytes in the notation, the glass with rulers."""

import re
import textwrap

from termprobe.notation import show, visible


def draw_picture(picture, columns=None):
    """Return the glass with rulers, the cursor's row and column marked; cut to `columns` console columns, with a mark."""
    width = len(picture.rows[0]) if picture.rows else 0
    tens = "".join(str(column // 10 % 10) if column % 10 == 0 else " " for column in range(width))
    units = "".join(str(column % 10) for column in range(width))
    lines = ["   " + tens, "   " + units]
    cursor = picture.cursor or (None, None)
    for number, row in enumerate(picture.rows):
        sign = ">" if number == cursor[0] else "|"
        lines.append(f"{number:>2}{sign}{''.join(_cell(character) for character in row)}|")
    if picture.cursor:
        lines.append("   " + " " * cursor[1] + "^ cursor: row {}, column {}".format(*cursor))
    if picture.bells:
        lines.append(f"   the bell sounds {picture.bells} times" if picture.bells > 1 else "   the bell sounds once")
    return "\n".join(_cut(line, columns) for line in lines)


def show_data(data):
    """Return bytes in the notation, long repeats folded: `"*" x 1919`."""
    parts, position = [], 0
    for run in re.finditer(rb"(.)\1{8,}", data, re.S):
        parts += [show(data[position:run.start()]), f"{show(run[1])} x {len(run[0])}"]
        position = run.end()
    return " ".join(part for part in (*parts, show(data[position:])) if part)


def show_step(step, columns=80):
    """Return one step as text: what is sent, what must be seen or come back, what is asked."""
    lines = [f"{step.id} ({step.kind}): {step.title}"]
    if step.not_fitted:
        return f"{lines[0]}\n  not fitted: {step.not_fitted}"
    if step.needs:
        lines += _folded("  needs ", ", ".join(step.needs), columns)
    if step.caution:
        lines += _folded("  CAUTION ", step.caution, columns)
    if step.settings:
        lines += _folded("  with ", ", ".join(f"{option} {position}" for option, position in step.settings), columns)
    if step.groups:
        lines += _folded("  sends ", show_data(step.data), columns)
    for word, text in (("looks for ", step.question), ("must read ", step.limits), ("source ", step.source or ""),
                       ("sets ", f"{step.option} to {step.position}" if step.option else ""), ("typed back ", step.word or ""),
                       ("comes back ", show(step.reply) if step.reply else ""), ("switch off if ", step.stop_if or "")):
        if text:
            lines += _folded(f"  {word}", text, columns)
    if step.expected is not None:
        lines.append(draw_picture(step.expected, columns))
    return "\n".join(lines)


def estimate(plan, character_s):
    """Return (seconds of sending, looks, presses of the builder) of a plan on a line whose characters take `character_s`."""
    fitted = [step for step in plan.steps if not step.not_fitted]
    sending_s = sum(len(group.data) * character_s + group.settle_s for step in fitted for group in step.groups)
    presses = sum(len(step.typed) if step.word else 1 for step in fitted if step.kind != "reply")
    return sending_s, sum(step.kind == "look" for step in fitted), presses


def _cell(character):
    shown = visible(character)
    return shown if len(shown) == 1 else "?"


def _cut(line, columns):
    line = line.rstrip()
    return line if columns is None or len(line) <= columns else line[:columns - 1] + "»"


def _folded(first, text, columns):
    return textwrap.wrap(first + visible(text), columns, subsequent_indent=" " * len(first), break_on_hyphens=False)
