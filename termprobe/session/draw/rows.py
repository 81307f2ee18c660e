"""Rows of the console: each a list of fragments, each of these a style and its text."""

from termprobe.session.draw.fit import columns_of, cut, wrap

Styled = tuple[str, str]
"""Style and text."""
Row = list[Styled]
Rows = list[Row]


def blank() -> Row:
    """Return an empty row."""
    return [("", "")]


def plain(text: str, style: str = "") -> Row:
    """Return a row of one text."""
    return [(style, text)]


def paragraph(text: str, columns: int, style: str = "") -> Rows:
    """Return `text` in rows of at most `columns`, indented."""
    return [plain(f"  {line}", style) for line in wrap(text, max(columns - 3, 1))]


def width(row: Row) -> int:
    """Return how many columns the row takes."""
    return sum(columns_of(text) for _, text in row)


def clipped(row: Row, columns: int) -> Row:
    """Return the row cut to at most `columns` columns."""
    kept: Row = []
    left = columns
    for style, text in row:
        text = cut(text, left)
        kept.append((style, text))
        left -= columns_of(text)
        if left <= 0:
            break
    return kept


def filled(row: Row, columns: int, style: str = "") -> Row:
    """Return the row filled up with blanks to `columns` columns."""
    return [*row, (style, " " * max(columns - width(row), 0))]


def beside(left: Rows, right: Rows, columns: int) -> Rows:
    """Return two blocks beside each other, the left one filled up to `columns` columns."""
    height = max(len(left), len(right))
    left = left + [[]] * (height - len(left))
    right = right + [[]] * (height - len(right))
    return [[*filled(one, columns), *other] for one, other in zip(left, right, strict=True)]


def part_around(index: int, count: int, rows: int) -> slice:
    """Return which of `count` lines are shown in `rows` rows so that line `index` is in the middle.

    At both ends of the lines it moves out of the middle.
    """
    first = min(max(index - rows // 2, 0), max(count - rows, 0))
    return slice(first, first + rows)
