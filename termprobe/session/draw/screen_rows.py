"""Draws one screen as rows of (style, text), cell by cell, framed with rulers where there is room. Pure.

Cursor and marks are shown by style and, on the rulers and in words, without it: colour never carries meaning alone.
"""

from dataclasses import dataclass, field

from termprobe.session.draw.fit import columns_of, cut, harmless
from termprobe.session.react.marked_cells import UNKNOWN, in_words
from termprobe.terminal.screen import Screen

RENDITIONS = {"b": "bold", "u": "underline", "k": "blink", "r": "reverse"}
FRAME = {"top": "┌┐", "bottom": "└┘", "side": "│", "line": "─", "row": "►", "column": "▼"}
FRAME_COLUMNS = 2
NUMBER_COLUMNS = 2
STRANGE = "?"
"""Stands for a character that has no width of one column."""


@dataclass(frozen=True)
class Look:
    """What is to be drawn of one screen."""

    screen: Screen
    caption: str = ""
    marks: dict = field(default_factory=dict)
    pointer: tuple[int, int] | None = None
    """The marking cursor."""
    first: tuple[int, int] = (0, 0)
    """First row and column shown."""


def framed_columns(screen, has_numbers):
    """Return how many columns a framed screen takes."""
    return len(screen.rows[0]) + FRAME_COLUMNS + NUMBER_COLUMNS * has_numbers


def window(screen, rows, columns, scroll=None, focus=None):
    """Return (first row, first column) of the `rows` x `columns` that are shown of a screen.

    Where it does not fit: what `scroll` says, kept within bounds; else around `focus`; else where most is written.
    """
    height, width = len(screen.rows), len(screen.rows[0])
    last_row, last_column = max(height - rows, 0), max(width - columns, 0)
    if scroll is not None:
        return min(scroll[0], last_row), min(scroll[1], last_column)
    if focus is not None:
        row, column = (
            min(max(place - size // 2, 0), last)
            for place, size, last in zip(
                focus, (rows, columns), (last_row, last_column), strict=True
            )
        )
        return row, column
    written = [sum(character != " " for character in text) for text in screen.rows]
    if screen.cursor and 0 <= screen.cursor[0] < height:
        written[screen.cursor[0]] += 1
    row = max(range(last_row + 1), key=lambda first: (sum(written[first : first + rows]), -first))
    return row, 0


def plain_rows(look, rows, columns):
    """Return the cells alone, at most `rows` x `columns` of them."""
    first_row, first_column = look.first
    shown = range(first_row, min(first_row + rows, len(look.screen.rows)))
    return [_cells(look, row, first_column, columns) for row in shown]


def framed_rows(look, rows, has_numbers):
    """Return the screen in a frame with rulers; `rows` counts the rows of the screen that are shown."""
    screen = look.screen
    width = len(screen.rows[0])
    number = " " * NUMBER_COLUMNS * has_numbers
    at = look.pointer or screen.cursor
    found = [[("class:frame", number + FRAME["top"][0] + _ruler(width, at) + FRAME["top"][1])]]
    for row, cells in enumerate(plain_rows(look, rows, width), look.first[0]):
        edge = FRAME["row"] if at and at[0] == row else FRAME["side"]
        label = f"{row:>{NUMBER_COLUMNS}}" if has_numbers else ""
        found.append([("class:frame", label + edge), *cells, ("class:frame", FRAME["side"])])
    caption = cut(f" {look.caption} ", width - 2) if look.caption else ""
    found.append(
        [
            ("class:frame", number + FRAME["bottom"][0] + FRAME["line"]),
            ("class:caption", caption),
            ("class:frame", FRAME["line"] * (width - 1 - len(caption)) + FRAME["bottom"][1]),
        ]
    )
    return found


def _ruler(width, at):
    ruler = [FRAME["line"]] * width
    for column in range(0, width - 2, 10):
        ruler[column : column + len(str(column))] = str(column)
    if at and 0 <= at[1] < width:
        ruler[at[1]] = FRAME["column"]
    return "".join(ruler)


def _cells(look, row, first, count):
    """Return the fragments of one row: cells that are alike are drawn together."""
    text = look.screen.rows[row][first : first + count]
    places = (
        *look.marks,
        *look.screen.renditions,
        *filter(None, (look.pointer, look.screen.cursor)),
    )
    special = sorted(
        {column for where, column in places if where == row and first <= column < first + len(text)}
    )
    fragments, place = [], first
    for column in special:
        fragments += [
            ("class:screen", _shown(text[place - first : column - first])),
            (style_of(look, row, column), _shown(_seen(look, row, column, text[column - first]))),
        ]
        place = column + 1
    return [
        fragment
        for fragment in (*fragments, ("class:screen", _shown(text[place - first :])))
        if fragment[1]
    ]


def _seen(look, row, column, character):
    seen = look.marks.get((row, column))
    return character if seen in (None, UNKNOWN) else seen


def _shown(text):
    """Return the characters of cells, each harmless and one column wide."""
    if text.isascii() and text.isprintable():
        return text
    return "".join(
        character if harmless(character) == character and columns_of(character) == 1 else STRANGE
        for character in text
    )


def style_of(look, row, column):
    """Return the style of a cell."""
    words = ["class:screen"]
    if letters := look.screen.renditions.get((row, column)):
        words += [RENDITIONS[letter] for letter in letters]
    if (row, column) in look.marks:
        words.append("class:marked")
    if (row, column) == look.pointer:
        words.append("class:pointer")
    elif (row, column) == look.screen.cursor:
        words.append("class:cursor")
    return " ".join(words)


def renditions_in_words(screen):
    """Return where cells are not plain: `bold: row 3 columns 5-9`; empty where all are."""
    parts = []
    for letter, name in RENDITIONS.items():
        cells = {cell: "" for cell, letters in screen.renditions.items() if letter in letters}
        if cells:
            parts.append(f"{name}: {in_words(cells)}")
    return "; ".join(parts)


def cursor_in_words(screen):
    """Return where the cursor must be."""
    return (
        "" if screen.cursor is None else f"cursor row {screen.cursor[0]}, column {screen.cursor[1]}"
    )
