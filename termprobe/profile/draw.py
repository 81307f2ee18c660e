"""Where each keycap stands in a drawing of the keyboard made of text, and that drawing."""

from typing import NamedTuple

LINES_A_ROW = 3
"""A rule, then two lines of keycap; a last rule ends the drawing."""
COLUMNS_A_KEY = 4


class Cap(NamedTuple):
    """The place of one key: its face is two lines of `width` characters, starting at `line` and `column`."""

    key: object
    line: int
    column: int
    width: int
    face: tuple
    """Two lines of text, each `width` characters."""


def caps(keyboard):
    """Return a Cap for each key, in the order of the keyboard's keys; lines and columns count from 0."""
    rows = sorted({key.row for key in keyboard.keys})
    return tuple(_cap(key, rows.index(key.row)) for key in keyboard.keys)


def draw(keyboard):
    """Return the drawing as lines of text, none longer than 4 characters for each key width."""
    found = caps(keyboard)
    width = max(cap.column + cap.width for cap in found) + 1
    height = max(cap.line for cap in found) + LINES_A_ROW
    canvas = [[" "] * width for _ in range(height)]
    for cap in found:
        left, right = cap.column - 1, cap.column + cap.width
        for line in (cap.line - 1, cap.line + 2):
            canvas[line][left : right + 1] = ["+", *"-" * cap.width, "+"]
    for cap in found:
        for line, text in enumerate(cap.face, cap.line):
            canvas[line][cap.column - 1 : cap.column + cap.width + 1] = ["|", *text, "|"]
    return tuple("".join(line).rstrip() for line in canvas)


def _cap(key, row):
    column = round(key.offset * COLUMNS_A_KEY)
    width = max(1, round((key.offset + key.width) * COLUMNS_A_KEY) - column - 1)
    return Cap(
        key,
        row * LINES_A_ROW + 1,
        column + 1,
        width,
        tuple(text[:width].ljust(width) for text in _face(key.legend)),
    )


def _face(legend):
    """Return the upper and the lower text of a keycap: a shifted character stands above the other, a second word below the first."""
    first, _, second = legend.partition(" ")
    return (first, second) if len(second) > 1 else (second, first)
