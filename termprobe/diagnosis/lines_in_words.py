"""Rows or columns of a screen, and the cells in them, named in words. Pure."""

from collections.abc import Iterable, Iterator, Sequence

from termprobe.terminal.screen import Difference

MOST_NAMED = 4
"""More lines than these are not named one by one."""
FEWEST_ALTERNATE = 3
COUNTS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
PARITIES = ("even", "odd")


def number_in_words(number: int) -> str:
    """Return `three`; digits from eleven on."""
    if number < len(COUNTS):
        return COUNTS[number]
    return str(number)


def counted(number: int, word: str) -> str:
    """Return `one row`, `three rows`, `12 rows`."""
    return f"{number_in_words(number)} {word}{'s' * (number != 1)}"


def times(number: int) -> str:
    """Return `once`, `twice`, `three times`."""
    return {1: "once", 2: "twice"}.get(number) or counted(number, "time")


def lines_in_words(axis: str, numbers: Iterable[int], height: int) -> str:
    """Return `row 3`, `rows 3 and 5`, `rows 3 to 9`, `even rows` of `height`, or `11 rows`."""
    found = sorted(set(numbers))
    return _named(axis, found, height) or counted(len(found), axis)


def _named(axis: str, found: Sequence[int], height: int) -> str:
    """Return the lines by their numbers, or what they have in common; else nothing."""
    if len(found) == 1:
        return f"{axis} {found[0]}"
    if len(found) == height:
        return f"all {axis}s"
    if len(found) > 2 and found == list(range(found[0], found[-1] + 1)):
        return f"{axis}s {found[0]} to {found[-1]}"
    if len(found) <= MOST_NAMED:
        return f"{axis}s {joined(map(str, found))}"
    return _alternate(axis, found, height)


def _alternate(axis: str, found: Sequence[int], height: int) -> str:
    """Return `odd rows`, `every 4th column from 2`, where they are all of these; else nothing."""
    step = found[1] - found[0]
    if len(found) < FEWEST_ALTERNATE or found != list(range(found[0], found[-1] + 1, step)):
        return ""
    is_whole = found[0] < step and found[-1] + step >= height
    if step == 2 and is_whole:
        return f"{PARITIES[found[0]]} {axis}s"
    if step == 2:
        return f"every second {axis} from {found[0]} to {found[-1]}"
    if is_whole:
        return f"every {step}th {axis} from {found[0]}"
    return ""


def joined(words: Iterable[str]) -> str:
    """Return `A`, `A and B`, `A, B and C`."""
    found = list(words)
    if len(found) < 2:
        return "".join(found)
    return f"{', '.join(found[:-1])} and {found[-1]}"


def cell_in_words(row: int, column: int) -> str:
    """Return where a cell is."""
    return f"row {row}, column {column}"


def where_in_words(cells: Sequence[Difference], rows: int, columns: int) -> str:
    """Return `in row 3`, `in odd columns`, `at row 2, column 7`; nothing where they are all over.

    The screen has `rows` rows and `columns` columns.
    """
    if len(cells) == 1:
        return f"at {cell_in_words(cells[0].row, cells[0].column)}"
    return ", ".join(f"in {lines}" for lines in _lines(cells, rows, columns))


def _lines(cells: Sequence[Difference], rows: int, columns: int) -> Iterator[str]:
    """Yield the rows, and the columns, that hold all of the cells, where these have a name."""
    for axis, numbers, count in (
        ("row", {cell.row for cell in cells}, rows),
        ("column", {cell.column for cell in cells}, columns),
    ):
        words = _named(axis, sorted(numbers), count)
        if words and len(numbers) < count:
            yield words
