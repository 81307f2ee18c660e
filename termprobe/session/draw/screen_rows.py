"""Draws one screen as rows, cell by cell, framed with rulers where there is room.

Cursor and marks are shown by style and, on the rulers and in words, without it: colour never
carries meaning alone. Pure.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from termprobe.session.draw.fit import columns_of, cut, harmless, wrap
from termprobe.session.draw.rows import Row, Rows, Styled, plain
from termprobe.session.react.marked_cells import CellIndex, Marks, marks_in_words
from termprobe.terminal.screen import UNKNOWN_CHARACTER, Screen

STYLE_OF_RENDITION = {
    "b": "bold",
    "d": "dim",
    "u": "underline",
    "k": "blink",
    "r": "reverse",
}


class Frame(NamedTuple):
    """The characters that a frame is drawn with."""

    top: tuple[str, str]
    """Left and right corner."""
    bottom: tuple[str, str]
    side: str
    line: str


EXPECTED_FRAME = Frame(("┌", "┐"), ("└", "┘"), "│", "─")
SEEN_FRAME = Frame(("╔", "╗"), ("╚", "╝"), "║", "═")
DIFFERENCE_FRAME = Frame(("+", "+"), ("+", "+"), ":", "-")
"""One for each of the screens that are shown in turn."""
ROW_POINTER, COLUMN_POINTER = "►", "▼"
FRAME_COLUMNS = 2
NUMBER_COLUMNS = 2
RULER_STEP = 10
EDGES = 4
"""So many columns of the frame's lower edge stay free beside a caption."""
STRANGE = "?"
"""Stands for a character that has no width of one column."""


@dataclass(frozen=True)
class Picture:
    """What is to be drawn of one screen."""

    screen: Screen
    caption: str = ""
    marks: Marks = field(default_factory=dict)
    pointer: CellIndex | None = None
    """The marking cursor."""
    first: CellIndex = (0, 0)
    """First row and column shown."""
    frame: Frame = EXPECTED_FRAME

    @property
    def height(self) -> int:
        """How many rows the screen has."""
        return len(self.screen.rows)

    @property
    def width(self) -> int:
        """How many columns the screen has."""
        return len(self.screen.rows[0])


def framed_columns(screen: Screen, has_numbers: bool) -> int:
    """Return how many columns a framed screen takes."""
    return len(screen.rows[0]) + FRAME_COLUMNS + NUMBER_COLUMNS * has_numbers


def window(screen: Screen, rows: int, columns: int, scroll: CellIndex) -> CellIndex:
    """Return (first row, first column) of the `rows` x `columns` that are shown of a screen.

    They are what `scroll` says, kept within the screen.
    """
    last_row = max(len(screen.rows) - rows, 0)
    last_column = max(len(screen.rows[0]) - columns, 0)
    return min(max(scroll[0], 0), last_row), min(max(scroll[1], 0), last_column)


def window_around(screen: Screen, rows: int, columns: int, focus: CellIndex) -> CellIndex:
    """Return the same, for the part with the cell `focus` in its middle."""
    scroll = (focus[0] - rows // 2, focus[1] - columns // 2)
    return window(screen, rows, columns, scroll)


def plain_rows(picture: Picture, rows: int, columns: int) -> Rows:
    """Return the cells alone, at most `rows` x `columns` of them."""
    first_row = picture.first[0]
    shown = range(first_row, min(first_row + rows, picture.height))
    return [_cells(picture, row, columns) for row in shown]


def framed_rows(picture: Picture, rows: int, has_numbers: bool) -> Rows:
    """Return the screen in a frame with rulers.

    `rows` counts the rows of the screen that are shown.
    """
    width = picture.width
    at = picture.pointer or picture.screen.cursor
    number = " " * NUMBER_COLUMNS * has_numbers
    frame = picture.frame
    left, right = frame.top
    ruler = _ruler(width, at, frame.line)
    found: Rows = [[("class:frame", number + left + ruler + right)]]
    for row, cells in enumerate(plain_rows(picture, rows, width), picture.first[0]):
        label = f"{row:>{NUMBER_COLUMNS}}" * has_numbers
        edge = ROW_POINTER if at and at[0] == row else frame.side
        found.append([("class:frame", label + edge), *cells, ("class:frame", frame.side)])
    captions = framed_caption(picture)
    below = [plain(f"{number} {line}", "class:caption") for line in captions[1:]]
    return [*found, _bottom(picture, number, captions[0]), *below]


def framed_caption(picture: Picture) -> list[str]:
    """Return the lines of the caption: the first stands in the frame, the others below it."""
    return wrap(picture.caption, max(picture.width - EDGES, 1)) or [""]


def _bottom(picture: Picture, number: str, caption: str) -> Row:
    """Return the lower edge of the frame, with the first line of the caption in it."""
    (left, right), line = picture.frame.bottom, picture.frame.line
    if caption:
        caption = cut(f" {caption} ", picture.width - 1)
    rest = line * (picture.width - 1 - columns_of(caption))
    return [
        ("class:frame", number + left + line),
        ("class:caption", caption),
        ("class:frame", rest + right),
    ]


def _ruler(width: int, at: CellIndex | None, line: str) -> str:
    ruler = [line] * width
    for column in range(0, width - 2, RULER_STEP):
        ruler[column : column + len(str(column))] = str(column)
    if at and 0 <= at[1] < width:
        ruler[at[1]] = COLUMN_POINTER
    return "".join(ruler)


def _cells(picture: Picture, row: int, count: int) -> Row:
    """Return the fragments of one row: cells that are alike are drawn together."""
    first = picture.first[1]
    text = picture.screen.rows[row][first : first + count]
    fragments: list[Styled] = []
    start = first
    for column in _special_columns(picture, row, range(first, first + len(text))):
        seen = _seen(picture, row, column, text[column - first])
        fragments += [
            ("class:screen", _shown(text[start - first : column - first])),
            (style_of(picture, row, column), _shown(seen)),
        ]
        start = column + 1
    fragments.append(("class:screen", _shown(text[start - first :])))
    return [fragment for fragment in fragments if fragment[1]]


def _special_columns(picture: Picture, row: int, columns: range) -> list[int]:
    """Return those of the columns whose cell in `row` is not drawn as most are."""
    single = [cell for cell in (picture.pointer, picture.screen.cursor) if cell is not None]
    cells = (*picture.marks, *picture.screen.renditions, *single)
    return sorted({column for its_row, column in cells if its_row == row and column in columns})


def _seen(picture: Picture, row: int, column: int, character: str) -> str:
    """Return the character that the builder sees in a cell where `character` is expected."""
    seen = picture.marks.get((row, column), UNKNOWN_CHARACTER)
    return character if seen == UNKNOWN_CHARACTER else seen


def _shown(text: str) -> str:
    """Return the characters of cells, each harmless and one column wide."""
    if text.isascii() and text.isprintable():
        return text
    return "".join(_one_column(character) for character in text)


def _one_column(character: str) -> str:
    is_shown = harmless(character) == character and columns_of(character) == 1
    return character if is_shown else STRANGE


def _style(letter: str) -> str:
    """Return the style of a rendition; consoles have no dim of their own that all know."""
    word = STYLE_OF_RENDITION[letter]
    return {"dim": "class:dim"}.get(word, word)


def style_of(picture: Picture, row: int, column: int) -> str:
    """Return the style of a cell."""
    cell = (row, column)
    letters = picture.screen.renditions.get(cell, "")
    words = ["class:screen", *map(_style, letters)]
    if cell in picture.marks:
        words.append("class:marked")
    if cell == picture.pointer:
        words.append("class:pointer")
    elif cell == picture.screen.cursor:
        words.append("class:cursor")
    return " ".join(words)


def renditions_in_words(screen: Screen) -> str:
    """Return where cells are not plain: `bold: row 3 columns 5-9`; empty where all are."""
    parts = [
        f"{name}: {marks_in_words(cells)}"
        for letter, name in STYLE_OF_RENDITION.items()
        if (cells := _rendered(screen.renditions, letter))
    ]
    return "; ".join(parts)


def _rendered(renditions: Mapping[CellIndex, str], letter: str) -> list[CellIndex]:
    return [cell for cell, letters in renditions.items() if letter in letters]


def cursor_in_words(screen: Screen) -> str:
    """Return where the cursor must be."""
    if screen.cursor is None:
        return ""
    return f"cursor row {screen.cursor[0]}, column {screen.cursor[1]}"
