"""Draws plans and pictures as text: bytes in the notation, the glass with rulers."""

import re
import textwrap

from termprobe.notation import show, visible

RENDITIONS = {"b": "bold", "u": "underlined", "k": "blinking", "r": "reverse"}
"""The letters of a Picture's renditions."""
_REPEATED = re.compile(rb"(.)\1{8,}|(.{40,160}?)\2+", re.S)


def draw_picture(picture, columns=None):
    """Return the glass with rulers, the cursor's row and column marked, renditions and bells in words below.

    Lines are cut to `columns` console columns, with ">" where one goes on.
    """
    width = len(picture.rows[0]) if picture.rows else 0
    tens = "".join(str(column // 10 % 10) if column % 10 == 0 else " " for column in range(width))
    units = "".join(str(column % 10) for column in range(width))
    lines = ["   " + tens, "   " + units]
    cursor = picture.cursor or (None, None)
    for number, row in enumerate(picture.rows):
        sign = ">" if number == cursor[0] else "|"
        lines.append(f"{number:>2}{sign}{''.join(_cell(character) for character in row)}|")
    if picture.cursor:
        lines.append(_cursor_line(*cursor))
    lines += [f"   {line}" for line in _renditions(picture)]
    if picture.bells:
        lines.append(f"   the bell sounds {picture.bells} times" if picture.bells > 1 else "   the bell sounds once")
    return "\n".join(_cut(line, columns) for line in lines)


def show_data(data):
    """Return bytes in the notation, long repeats folded: `"*" x 1919`; a repeated row stands in brackets."""
    parts, position = [], 0
    for run in _REPEATED.finditer(data):
        once = run[1] or run[2]
        count = len(run[0]) // len(once)
        parts += [show(data[position:run.start()]), f"{show(once)} x {count}" if run[1] else f"({show(once)}) x {count}"]
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


def _cell(character):
    shown = visible(character)
    return shown if len(shown) == 1 else "?"


def _cursor_line(row, column):
    """Return the line below the glass that points at the cursor's column, the words where there is room for them."""
    words = f"cursor: row {row}, column {column}"
    return f"   {words:>{column - 1}} ^" if column > len(words) else "   " + " " * column + f"^ {words}"


def _renditions(picture):
    """Yield `bold: row 0, columns 6 to 9` for each run of cells that share a rendition."""
    for letter, name in RENDITIONS.items():
        cells = sorted(cell for cell, letters in picture.renditions.items() if letter in letters)
        known = set(cells)
        starts = [(row, column) for row, column in cells if (row, column - 1) not in known]
        ends = [(row, column) for row, column in cells if (row, column + 1) not in known]
        for (row, first), (_, last) in zip(starts, ends):
            yield f"{name}: row {row}, " + (f"columns {first} to {last}" if first < last else f"column {first}")


def _cut(line, columns):
    line = line.rstrip()
    return line if columns is None or len(line) <= columns else line[:columns - 1] + ">"


def _folded(first, text, columns):
    return textwrap.wrap(first + visible(text), columns, subsequent_indent=" " * len(first), break_on_hyphens=False)
