"""Where each keycap stands in a drawing of the keyboard made of text, and that drawing."""

from typing import NamedTuple

from termprobe.profile.model import Key, Keyboard

LINES_A_ROW = 3
"""A rule, then two lines of keycap; a last rule ends the drawing."""
COLUMNS_A_KEY = 4


class Cap(NamedTuple):
    """Where one key stands: its face begins at `line` and `column`, both from 0."""

    key: Key
    line: int
    column: int
    width: int
    face: tuple[str, str]
    """Two lines of text, each `width` characters."""


def caps(keyboard: Keyboard) -> tuple[Cap, ...]:
    """Return a Cap for each key, in the order of the keyboard's keys."""
    rows = sorted({key.row for key in keyboard.keys})
    return tuple(_cap(key, rows.index(key.row)) for key in keyboard.keys)


def draw_keyboard(keyboard: Keyboard) -> tuple[str, ...]:
    """Return the drawing as lines of text, none longer than 4 characters for each key width."""
    found = caps(keyboard)
    width = max((cap.column + cap.width for cap in found), default=0) + 1
    height = max((cap.line for cap in found), default=-LINES_A_ROW) + LINES_A_ROW
    canvas = [[" "] * width for _ in range(height)]
    for cap in found:
        rule = ["+", *"-" * cap.width, "+"]
        _put(canvas, cap, cap.line - 1, rule)
        _put(canvas, cap, cap.line + 2, rule)
    for cap in found:
        for line, text in enumerate(cap.face, cap.line):
            _put(canvas, cap, line, ["|", *text, "|"])
    return tuple("".join(line).rstrip() for line in canvas)


def _put(canvas: list[list[str]], cap: Cap, line: int, characters: list[str]) -> None:
    """Write a line of a keycap, with its edges, onto the canvas."""
    canvas[line][cap.column - 1 : cap.column + cap.width + 1] = characters


def _cap(key: Key, row: int) -> Cap:
    """Return the Cap of a key in the `row`-th row of keys."""
    left = round(key.offset * COLUMNS_A_KEY)
    right = round((key.offset + key.width) * COLUMNS_A_KEY)
    width = max(1, right - left - 1)
    upper, lower = _face(key.legend)
    face = upper[:width].ljust(width), lower[:width].ljust(width)
    return Cap(key, row * LINES_A_ROW + 1, left + 1, width, face)


def _face(legend: str) -> tuple[str, str]:
    """Return the upper and the lower text of a keycap.

    A shifted character stands above the other, a second word below the first.
    """
    first, _, second = legend.partition(" ")
    if len(second) > 1:
        return first, second
    return second, first
