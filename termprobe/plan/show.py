"""Draws plans as text: bytes in the notation, the screen with rulers."""

import re
from collections.abc import Iterator

from termprobe.folding import folded
from termprobe.notation import show, visible
from termprobe.plan.dot_drawing import draw_dots, enlarged_of, wrong_dots
from termprobe.plan.model import (
    KeyPress,
    LineCheck,
    Look,
    Measure,
    Reply,
    Step,
    Switch,
    TypedBack,
    expected_of,
)
from termprobe.plan.typed_word import word_shown
from termprobe.terminal.dots import dots_in_words
from termprobe.terminal.screen import Screen

RENDITION_WORDS = {"b": "bold", "d": "dim", "u": "underlined", "k": "blinking", "r": "reverse"}
"""The letters of a Screen's renditions."""

TITLE_INDENT = 4
_DOTS = "   "
"""Stands before enlarged characters, which so stand below the screen."""

_REPEATED = re.compile(rb"(.)\1{8,}|(.{40,160}?)\2+", re.S)


def draw_screen(screen: Screen, columns: int | None = None) -> str:
    """Return the screen with rulers, and renditions and bells in words below.

    The cursor's row and column are marked. Where it does not fit into `columns` console columns the
    frame and the row numbers go first; then lines are cut, with ">" where one goes on.
    """
    width = len(screen.rows[0]) if screen.rows else 0
    is_framed = columns is None or columns >= width + 4
    lines = _rulers(width)
    lines += map(_row, screen.rows)
    lines += _below(screen)
    if is_framed:
        lines = [_margin(screen, number - 2) + line for number, line in enumerate(lines)]
        first, last = 2, 2 + len(screen.rows)
        lines[first:last] = [line + "|" for line in lines[first:last]]
    return "\n".join(_cut(line, columns) for line in lines)


def _rulers(width: int) -> list[str]:
    tens = "".join(str(column // 10 % 10).ljust(10) for column in range(0, width, 10))
    units = "".join(str(column % 10) for column in range(width))
    return [tens[:width], units]


def _margin(screen: Screen, row: int) -> str:
    """Return what stands left of a row of the screen, or of a line above or below it."""
    if not 0 <= row < len(screen.rows):
        return "   "
    has_cursor = screen.cursor is not None and screen.cursor[0] == row
    return f"{row:>2}" + (">" if has_cursor else "|")


def show_data(data: bytes) -> str:
    """Return bytes in the notation, long repeats folded: `"*" x 1919`.

    A repeated row stands in brackets.
    """
    parts: list[str] = []
    end = 0
    for run in _REPEATED.finditer(data):
        once = run[1] or run[2]
        shown = show(once) if run[1] else f"({show(once)})"
        parts += [show(data[end : run.start()]), f"{shown} x {len(run[0]) // len(once)}"]
        end = run.end()
    return " ".join(filter(None, (*parts, show(data[end:]))))


def show_step(step: Step, columns: int = 80) -> str:
    """Return one step as text: what is sent, what must be seen or come back, what is asked."""
    lines = folded(f"{step.id} ({step.kind}): ", step.title, columns, TITLE_INDENT)
    if step.not_fitted:
        lines += _folded("  not fitted: ", step.not_fitted, columns)
        return "\n".join(lines)
    for word, text in _before(step):
        lines += _folded(f"  {word} ", text, columns)
    if step.groups:
        lines += _folded_data("  sends ", step.data, columns)
    for word, text in (("asks", step.question), *_of_kind(step)):
        lines += _folded(f"  {word} ", text, columns)
    screen = expected_of(step)
    if screen is not None:
        lines.append(draw_screen(screen, columns))
    lines += [_DOTS + line for line in draw_dots(enlarged_of(step), columns - len(_DOTS))]
    return "\n".join(lines)


def _before(step: Step) -> Iterator[tuple[str, str]]:
    """Yield (word, text) for what must be so before the step is sent."""
    yield "needs", ", ".join(step.needs)
    if isinstance(step, Look):
        yield "not asked where all of these passed:", ", ".join(step.covered_by)
    yield "CAUTION", step.caution or ""
    yield "with", ", ".join(f"{option} {position}" for option, position in step.settings)


def _of_kind(step: Step) -> Iterator[tuple[str, str]]:
    """Yield (word, text) for what answers the step."""
    if isinstance(step, Measure):
        yield "must read", step.limits_with_edges
    yield "source", step.source or ""
    if isinstance(step, Switch):
        yield "sets", f"{step.option} to {step.position}"
    elif isinstance(step, TypedBack):
        yield "typed back", word_shown(step)
    elif isinstance(step, LineCheck):
        yield "tries", step.check
    elif isinstance(step, Reply):
        yield "comes back", step.wanted
    elif isinstance(step, KeyPress):
        yield "comes back", show(step.press.code)
    yield "switch off if", step.stop_if or ""


def _row(row: str) -> str:
    if visible(row) == row:
        return row
    return "".join(map(_cell, row))


def _cell(character: str) -> str:
    shown = visible(character)
    return shown if len(shown) == 1 else "?"


def _below(screen: Screen) -> Iterator[str]:
    """Yield what stands below the screen: the cursor pointed at, renditions, bells."""
    if screen.cursor:
        row, column = screen.cursor
        words = f"cursor: row {row}, column {column}"
        is_left = column > len(words)
        yield f"{words:>{column - 1}} ^" if is_left else " " * column + f"^ {words}"
    yield from beside_rows(screen)
    yield from dots_in_words(screen.misdrawn)
    yield from draw_dots(wrong_dots(screen), len(screen.rows[0]))


def beside_rows(screen: Screen) -> Iterator[str]:
    """Yield in words what the characters of a screen do not show: renditions, then bells."""
    yield from _renditions(screen)
    if screen.bells:
        times = "once" if screen.bells == 1 else f"{screen.bells} times"
        yield f"the bell sounds {times}"


def _renditions(screen: Screen) -> Iterator[str]:
    """Yield `bold: row 0, columns 6 to 9` for each run of cells that share a rendition."""
    for letter, name in RENDITION_WORDS.items():
        cells = sorted(cell for cell, letters in screen.renditions.items() if letter in letters)
        known = set(cells)
        starts = [(row, column) for row, column in cells if (row, column - 1) not in known]
        ends = [(row, column) for row, column in cells if (row, column + 1) not in known]
        for (row, first), (_, last) in zip(starts, ends, strict=True):
            columns = f"columns {first} to {last}" if first < last else f"column {first}"
            yield f"{name}: row {row}, {columns}"


def _cut(line: str, columns: int | None) -> str:
    line = line.rstrip()
    return line if columns is None or len(line) <= columns else line[: columns - 1] + ">"


def _folded_data(first: str, data: bytes, columns: int) -> list[str]:
    """Return the lines of show_data(data), broken between words of the notation only.

    So no blank is lost.
    """
    width = columns - len(first)
    words: list[str] = []
    for word in re.findall(r'\(?"[^"]*"\)?|\S+', show_data(data)):
        words += _short_words(word, width)
    lines = [""]
    for word in words:
        if lines[-1] and len(lines[-1]) + 1 + len(word) > width:
            lines.append("")
        lines[-1] = f"{lines[-1]} {word}".lstrip(" ")
    rest = [" " * len(first) + line for line in lines[1:]]
    return [first + lines[0], *rest]


def _short_words(word: str, width: int) -> list[str]:
    """Return a word of the notation as words of at most `width` characters.

    A long text becomes several.
    """
    if len(word) <= width or '"' not in word:
        return [word]
    before, text, after = word.split('"')
    size = width - len(before) - len(after) - 2
    parts = [f'"{text[start : start + size]}"' for start in range(0, len(text), size)]
    return [before + parts[0], *parts[1:-1], parts[-1] + after]


def _folded(first: str, text: str, columns: int) -> list[str]:
    if not text:
        return []
    return folded(first, text, columns)
