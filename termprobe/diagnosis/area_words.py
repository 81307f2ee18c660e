"""The words for a part of a screen, as people write them. Pure.

A phrase is first put into few words, then the first pattern that fits says what it means: one set
of rows and columns, or several where it is vague.
"""

import re
from collections.abc import Callable, Sequence

Cells = tuple[frozenset[int], frozenset[int]]
"""Rows and columns."""
Meanings = Sequence[Cells]

AREA_WORDS = (
    "everywhere",
    "odd or even rows or columns",
    "every other row or column; every 3rd column; every other 8 columns",
    "top, bottom, left or right half, third, quarter or edge; top left corner",
    "row N; rows N-M; rows N, M and K; the 3rd row; the same of columns",
    "the first or last N rows or columns; from column N on; below row N",
    "everything but one of these",
    'several of these, joined by a comma, for the cells that are in all: "odd rows, left half"',
)
"""All that is understood, to be read by people. Rows and columns count from 0 where nobody adds
"counting from 1"."""
AREA_EXAMPLES = (
    "everywhere",
    "odd rows",
    "even columns",
    "every other row",
    "every third column",
    "top half",
    "bottom quarter",
    "left third",
    "right edge",
    "top left corner",
    "rows 2-9",
    "row 5, column 40",
    "the first 3 rows",
    "the last 16 columns",
    "from column 8 on",
    "below row 4",
    "everything but the top line",
    "counting from 1",
)
LONGEST = 100
"""A longer phrase means nothing."""
EDGES = (1, 2, 4, 8)
"""So many columns or rows an edge may be."""
SHARES = {"half": 2, "side": 2, "third": 3, "quarter": 4}


def meanings(phrase: str, size: tuple[int, int], base: int) -> Meanings:
    """Return what a phrase may mean on a screen of that size; none where it means nothing.

    `base` is the number of the first row and column.
    """
    whole = frozenset(range(size[0])), frozenset(range(size[1]))
    if len(phrase) > LONGEST:
        return ()
    for pattern, read in _READERS:
        words = pattern.fullmatch(phrase)
        if words is not None:
            return read(words, whole, base)
    return ()


def _along(axis: str, whole: Cells, holds: Callable[[int], bool]) -> Cells:
    """Return the rows, or the columns, of which `holds` is true."""
    rows, columns = whole
    if axis == "row":
        return frozenset(filter(holds, rows)), columns
    return rows, frozenset(filter(holds, columns))


def _everywhere(_words: re.Match[str], whole: Cells, _base: int) -> Meanings:
    return (whole,)


def _parity(words: re.Match[str], whole: Cells, base: int) -> Meanings:
    rest = int(words[1] == "odd")
    return (_along(words[2], whole, lambda number: (number + base) % 2 == rest),)


def _alternate(words: re.Match[str], whole: Cells, _base: int) -> Meanings:
    """Every other row, or group of columns: it may be the first, or the second."""
    width = int(words[1] or 1)

    def every_other(rest: int) -> Cells:
        return _along(words[2], whole, lambda number: number // max(width, 1) % 2 == rest)

    return every_other(1), every_other(0)


def _every(words: re.Match[str], whole: Cells, _base: int) -> Meanings:
    step = int(words[1])
    if step not in range(1, len(whole[words[2] == "column"]) + 1):
        return ()

    def beginning_at(start: int) -> Cells:
        return _along(words[2], whole, lambda number: number % step == start)

    return [beginning_at(start) for start in range(step - 1, -1, -1)]


def _numbered(words: re.Match[str], whole: Cells, base: int) -> Meanings:
    numbers: set[int] = set()
    for part in re.split(r" ?(?:,|and|&) ?(?:row|column)? ?", words[2]):
        first, _, last = part.replace(" ", "").partition("-")
        found = range(int(first) - base, int(last or first) + 1 - base)
        numbers.update(found)
    found_cells = _along(words[1], whole, numbers.__contains__)
    is_whole = numbers <= whole[words[1] == "column"]
    return (found_cells,) * is_whole


def _ordinal(words: re.Match[str], whole: Cells, _base: int) -> Meanings:
    index = int(words[1]) - 1
    return (_along(words[2], whole, lambda number: number == index),)


def _some_at_an_end(words: re.Match[str], whole: Cells, _base: int) -> Meanings:
    """The first or last so many rows or columns."""
    end, count, axis = words["end"], int(words["count"] or words["before"] or 1), words["axis"]
    if (end in ("top", "bottom") and axis == "column") or (
        end in ("left", "right") and axis == "row"
    ):
        return ()
    return (_at_end(end, axis, count, whole),)


def _at_end(end: str, axis: str, count: int, whole: Cells) -> Cells:
    if end in ("first", "top", "left"):
        return _along(axis, whole, lambda number: number < count)
    size = len(whole[axis == "column"])
    return _along(axis, whole, lambda number: number >= size - count)


def _axis_of(end: str) -> str:
    return {"top": "row", "bottom": "row"}.get(end, "column")


def _share(words: re.Match[str], whole: Cells, _base: int) -> Meanings:
    return (_share_of(words[1], SHARES[words[2]], whole),)


def _share_of(end: str, parts: int, whole: Cells) -> Cells:
    axis = _axis_of(end)
    size = len(whole[axis == "column"])
    if end in ("top", "left"):
        return _at_end(end, axis, size // parts, whole)
    return _at_end(end, axis, size - size * (parts - 1) // parts, whole)


def _some_half(words: re.Match[str], whole: Cells, _base: int) -> Meanings:
    ends = {"first": ("left", "top"), "second": ("right", "bottom"), "last": ("right", "bottom")}
    named = ends.get(words[1] or "", ("left", "right", "top", "bottom"))
    return [_share_of(end, 2, whole) for end in named]


def _corner(words: re.Match[str], whole: Cells, _base: int) -> Meanings:
    """A quarter of the screen, or the cell itself."""

    def within(rows: int, columns: int) -> Cells:
        row, column = (
            _at_end(words[1], "row", rows, whole),
            _at_end(words[2], "column", columns, whole),
        )
        return row[0], column[1]

    return within(len(whole[0]) // 2, len(whole[1]) // 2), within(1, 1)


def _edge(words: re.Match[str], whole: Cells, _base: int) -> Meanings:
    axis = _axis_of(words[1])
    return [_at_end(words[1], axis, count, whole) for count in EDGES]


def _end(words: re.Match[str], whole: Cells, base: int) -> Meanings:
    """The half at one end, or its edge."""
    return (_share_of(words[1], 2, whole), *_edge(words, whole, base))


def _middle(_words: re.Match[str], whole: Cells, _base: int) -> Meanings:
    """The middle half of the rows, or of the columns."""
    rows, columns = len(whole[0]), len(whole[1])
    return (
        _along("row", whole, lambda number: rows // 4 <= number < rows - rows // 4),
        _along("column", whole, lambda number: columns // 4 <= number < columns - columns // 4),
    )


def _from_on(words: re.Match[str], whole: Cells, base: int) -> Meanings:
    first = int(words[2]) - base
    return (_along(words[1], whole, lambda number: number >= first),)


def _beside(words: re.Match[str], whole: Cells, base: int) -> Meanings:
    """Below or right of a row or column, or before it."""
    limit = int(words[3]) - base
    if words[1] in ("below", "after", "beyond", "past", "right", "under"):
        return (_along(words[2], whole, lambda number: number > limit),)
    return (_along(words[2], whole, lambda number: number < limit),)


def _all_but(words: re.Match[str], whole: Cells, base: int) -> Meanings:
    """All rows, or all columns, but some."""
    size = len(whole[0]), len(whole[1])
    found = []
    for rows, columns in meanings(words[1], size, base):
        if columns == whole[1]:
            found.append((whole[0] - rows, columns))
        elif rows == whole[0]:
            found.append((rows, whole[1] - columns))
    return found


_NUMBER_LIST = r"(\d{1,4}(?:-\d{1,4})?(?: ?(?:,|and|&) ?(?:row |column )?\d{1,4}(?:-\d{1,4})?)*)"
_Reader = Callable[[re.Match[str], Cells, int], Meanings]
_TABLE: tuple[tuple[str, _Reader], ...] = (
    (
        r"everywhere|everything|anywhere"
        r"|(?:whole|entire|full|all over|all)?(?: (?:row|column|cell))?"
        r"|(?:each|every|any|all) (?:row|column|cell)",
        _everywhere,
    ),
    (r"(odd|even) (row|column)", _parity),
    (r"alternate (?:(\d{1,4}) )?(row|column)", _alternate),
    (r"every (\d{1,4})(?:st|nd|rd|th)? (row|column)", _every),
    (rf"(row|column) ?(?:from )?{_NUMBER_LIST}", _numbered),
    (r"(\d{1,4})(?:st|nd|rd|th) (row|column)", _ordinal),
    (
        r"(?:(?P<before>\d{1,4}) )?(?P<end>first|last|top|bottom|left|right) "
        r"(?:(?P<count>\d{1,4}) )?(?P<axis>row|column)",
        _some_at_an_end,
    ),
    (
        r"(?P<before>(?P<count>\d{1,4})) (?P<axis>row|column) (?P<end>top|bottom|left|right)",
        _some_at_an_end,
    ),
    (r"(top|bottom|left|right) (half|side|third|quarter)", _share),
    (r"(?:(first|second|last|1) )?half", _some_half),
    (r"(top|bottom|left|right)", _end),
    (r"middle(?: (?:half|third|side))?", _middle),
    (r"(top|bottom)[ -](left|right) (?:corner|quarter)", _corner),
    (r"(top|bottom|left|right) (?:edge|margin|border|end)", _edge),
    (
        r"(?:from )?(row|column) (\d{1,4})(?: and| -)? ?-?"
        r"(?:on|onwards?|up|upwards?|above|beyond|end)",
        _from_on,
    ),
    (r"from (row|column) (\d{1,4})", _from_on),
    (
        r"(below|after|beyond|past|right|under|above|before|left|over) (row|column) (\d{1,4})",
        _beside,
    ),
    (
        r"(?:everywhere|everything|all|all row|all column)? ?(?:except|but|not)(?: for)? (.+)",
        _all_but,
    ),
)
_READERS = [(re.compile(pattern), read) for pattern, read in _TABLE]
