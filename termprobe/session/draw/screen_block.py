"""One screen in the room there is: framed, or without a frame, or the parts of it that matter.

Pure.
"""

import dataclasses
from collections.abc import Sequence

from termprobe.session.draw.fit import columns_of, fitted
from termprobe.session.draw.pictures import rows_to_compare, shows_marks
from termprobe.session.draw.rows import Rows, plain
from termprobe.session.draw.screen_rows import (
    FRAME_COLUMNS,
    Picture,
    framed_caption,
    framed_columns,
    framed_rows,
    plain_rows,
    window,
    window_around,
)
from termprobe.session.draw.shown_rows import parts_of, shown_rows, words_of_gap
from termprobe.session.react.answering import region_due
from termprobe.session.react.marked_cells import CellIndex
from termprobe.session.state import State
from termprobe.terminal.screen import Screen

RULE_COLUMNS = 2
"""A caption without a frame has so much of the frame's line before it, and as much behind it."""
ALONE_KEY = " (g: alone)"
"""The key that gives the screen more room."""


@dataclasses.dataclass(frozen=True)
class ScreenPart:
    """What is shown of a screen."""

    rows: tuple[int, ...]
    """From the top; where some are left out between them, the gap is told."""
    first_column: int = 0

    @property
    def first(self) -> CellIndex:
        """First row and column."""
        return self.rows[0], self.first_column


def part_shown(state: State, screens: Sequence[Screen], rows: int, columns: int) -> ScreenPart:
    """Return what is shown in `rows` x `columns` of `screens`, which are shown in turn.

    It is the part around the marking cursor, or where the builder has moved, or what matters.
    """
    screen = screens[0]
    if shows_marks(state):
        first = window_around(screen, rows, columns, state.cursor)
    elif state.scroll is not None:
        first = window(screen, rows, columns, state.scroll)
    else:
        compared = rows_to_compare(state)
        return ScreenPart(shown_rows(screens, rows, _question(state), compared))
    last = min(first[0] + rows, len(screen.rows))
    return ScreenPart(tuple(range(first[0], last)), first[1])


def _question(state: State) -> str:
    """Return what is asked now: of a part of the screen, or of all of it."""
    region = region_due(state) if state.mode == "narrowing" else None
    return state.step.question if region is None else region.question


def is_framed(picture: Picture, rows: int, columns: int) -> bool:
    """Return whether a picture has room with its frame and the whole of its caption."""
    needed = picture.height + 1 + len(framed_caption(picture))
    return rows >= needed and columns >= picture.width + FRAME_COLUMNS


def block(
    state: State, picture: Picture, screens: Sequence[Screen], rows: int, columns: int
) -> Rows:
    """Return the picture in a frame; without room for that as much of it as has room.

    `screens` are those that are shown in turn, so that all of them are shown alike.
    """
    if is_framed(picture, rows, columns):
        has_numbers = columns >= framed_columns(picture.screen, True)
        return framed_rows(picture, picture.height, has_numbers)
    captions = _caption_lines(picture, rows, columns)
    room = max(rows - len(captions), 1)
    part = part_shown(state, screens, room, columns)
    text = "; ".join(filter(None, (picture.caption, _part_words(picture, part, columns))))
    above = fitted(text, _caption_columns(columns), len(captions))
    return [*_in_line(picture, above, columns, "class:caption"), *parts(picture, part, columns)]


def first_in(
    state: State, picture: Picture, screens: Sequence[Screen], rows: int, columns: int
) -> CellIndex:
    """Return the first row and column that block() shows."""
    if is_framed(picture, rows, columns):
        return 0, 0
    room = max(rows - len(_caption_lines(picture, rows, columns)), 1)
    return part_shown(state, screens, room, columns).first


def _caption_lines(picture: Picture, rows: int, columns: int) -> list[str]:
    """Return the lines of the caption as long as it can get; at most half of the rows."""
    last_row, last_column = picture.height - 1, picture.width - 1
    widest = ScreenPart((last_row,), last_column)
    words = f"{picture.caption}; {_part_words(picture, widest, columns)}"
    return fitted(words, _caption_columns(columns), max(rows // 2, 1))


def _caption_columns(columns: int) -> int:
    return max(columns - 2 * (RULE_COLUMNS + 1), 1)


def _in_line(picture: Picture, lines: Sequence[str], columns: int, style: str) -> Rows:
    """Return `lines` in a line of the picture's frame, which begins and ends with it."""
    line = picture.frame.line
    heads = [line * RULE_COLUMNS, *[" " * RULE_COLUMNS] * (len(lines) - 1)]
    drawn = [f"{head} {text} " for head, text in zip(heads, lines, strict=True)]
    drawn[-1] += line * max(columns - columns_of(drawn[-1]), 0)
    return [plain(text, style) for text in drawn]


def _part_words(picture: Picture, part: ScreenPart, columns: int) -> str:
    """Return which part is shown, and what shows all."""
    words = []
    if len(part.rows) < picture.height:
        words.append(f"rows {part.rows[0]}-{part.rows[-1]} of {picture.height}")
    if columns < picture.width:
        last = min(part.first_column + columns, picture.width) - 1
        words.append(f"columns {part.first_column}-{last} of {picture.width}")
    return ", ".join(words) + ALONE_KEY if words else ""


def parts(picture: Picture, part: ScreenPart, columns: int) -> Rows:
    """Return the cells of that part, and a row for each gap in it."""
    found: Rows = []
    for is_gap, rows in parts_of(part.rows):
        if is_gap:
            words = [words_of_gap(picture.screen, rows)]
            found += _in_line(picture, words, columns, "class:frame")
            continue
        first = (rows[0], part.first_column)
        found += plain_rows(dataclasses.replace(picture, first=first), len(rows), columns)
    return found
