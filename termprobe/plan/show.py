"""Draws plans as text: bytes in the notation, the screen with rulers."""

import re
import textwrap

from termprobe.notation import show, visible

RENDITIONS = {"b": "bold", "u": "underlined", "k": "blinking", "r": "reverse"}
"""The letters of a Screen's renditions."""
_REPEATED = re.compile(rb"(.)\1{8,}|(.{40,160}?)\2+", re.S)


def draw_screen(screen, columns=None):
    """Return the screen with rulers, the cursor's row and column marked, renditions and bells in words below.

    Where it does not fit into `columns` console columns the frame and the row numbers go first; then lines are cut, with
    ">" where one goes on.
    """
    width = len(screen.rows[0]) if screen.rows else 0
    is_framed = columns is None or columns >= width + 4
    margin = "   " if is_framed else ""
    tens = "".join(str(column // 10 % 10) if column % 10 == 0 else " " for column in range(width))
    units = "".join(str(column % 10) for column in range(width))
    lines = [margin + tens, margin + units]
    for number, row in enumerate(screen.rows):
        text = "".join(_cell(character) for character in row)
        edge = ">" if screen.cursor and number == screen.cursor[0] else "|"
        lines.append(f"{number:>2}{edge}{text}|" if is_framed else text)
    lines += [margin + line for line in _below(screen)]
    return "\n".join(_cut(line, columns) for line in lines)


def show_data(data):
    """Return bytes in the notation, long repeats folded: `"*" x 1919`; a repeated row stands in brackets."""
    parts, position = [], 0
    for run in _REPEATED.finditer(data):
        once = run[1] or run[2]
        count = len(run[0]) // len(once)
        parts += [
            show(data[position : run.start()]),
            f"{show(once)} x {count}" if run[1] else f"({show(once)}) x {count}",
        ]
        position = run.end()
    return " ".join(part for part in (*parts, show(data[position:])) if part)


def show_step(step, columns=80):
    """Return one step as text: what is sent, what must be seen or come back, what is asked."""
    lines = [f"{step.id} ({step.kind}): {step.title}"]
    if step.not_fitted:
        return f"{lines[0]}\n  not fitted: {step.not_fitted}"
    if step.needs:
        lines += _folded("  needs ", ", ".join(step.needs), columns)
    if step.covered_by:
        lines += _folded(
            "  not asked where one of these passed: ", ", ".join(step.covered_by), columns
        )
    if step.caution:
        lines += _folded("  CAUTION ", step.caution, columns)
    if step.settings:
        lines += _folded(
            "  with ",
            ", ".join(f"{option} {position}" for option, position in step.settings),
            columns,
        )
    if step.groups:
        lines += _folded_data("  sends ", step.data, columns)
    for word, text in (
        ("looks for ", step.question),
        ("must read ", step.limits),
        ("source ", step.source or ""),
        ("sets ", f"{step.option} to {step.position}" if step.option else ""),
        ("typed back ", step.word or ""),
        ("comes back ", show(step.reply) if step.reply else ""),
        ("switch off if ", step.stop_if or ""),
    ):
        if text:
            lines += _folded(f"  {word}", text, columns)
    if step.expected is not None:
        lines.append(draw_screen(step.expected, columns))
    return "\n".join(lines)


def _cell(character):
    shown = visible(character)
    return shown if len(shown) == 1 else "?"


def _below(screen):
    """Yield what stands below the screen: the cursor pointed at, renditions, bells."""
    if screen.cursor:
        row, column = screen.cursor
        words = f"cursor: row {row}, column {column}"
        yield f"{words:>{column - 1}} ^" if column > len(words) else " " * column + f"^ {words}"
    yield from _renditions(screen)
    if screen.bells:
        yield (
            f"the bell sounds {screen.bells} times" if screen.bells > 1 else "the bell sounds once"
        )


def _renditions(screen):
    """Yield `bold: row 0, columns 6 to 9` for each run of cells that share a rendition."""
    for letter, name in RENDITIONS.items():
        cells = sorted(cell for cell, letters in screen.renditions.items() if letter in letters)
        known = set(cells)
        starts = [(row, column) for row, column in cells if (row, column - 1) not in known]
        ends = [(row, column) for row, column in cells if (row, column + 1) not in known]
        for (row, first), (_, last) in zip(starts, ends):
            yield f"{name}: row {row}, " + (
                f"columns {first} to {last}" if first < last else f"column {first}"
            )


def _cut(line, columns):
    line = line.rstrip()
    return line if columns is None or len(line) <= columns else line[: columns - 1] + ">"


def _folded_data(first, data, columns):
    """Return the lines of show_data(data), broken between words of the notation only, so that no blank is lost."""
    width = columns - len(first)
    lines = [""]
    for word in re.findall(r'\(?"[^"]*"\)?|\S+', show_data(data)):
        for part in _short_words(word, width):
            if lines[-1] and len(lines[-1]) + 1 + len(part) > width:
                lines.append("")
            lines[-1] += " " + part if lines[-1] else part
    return [
        (first if number == 0 else " " * len(first)) + line for number, line in enumerate(lines)
    ]


def _short_words(word, width):
    """Return a word of the notation as words of at most `width` characters: a long text as several."""
    if len(word) <= width or '"' not in word:
        return [word]
    before, text, after = word.split('"')
    size = width - len(before) - len(after) - 2
    parts = [f'"{text[start : start + size]}"' for start in range(0, len(text), size)]
    return [before + parts[0], *parts[1:-1], parts[-1] + after]


def _folded(first, text, columns):
    return textwrap.wrap(
        first + visible(text), columns, subsequent_indent=" " * len(first), break_on_hyphens=False
    )
