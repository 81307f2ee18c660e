"""The pattern library: screens made for eyes, so regular that a break is seen at a glance.

A pattern is a function of (rows, columns, argument) that returns rows of characters, and a row of
PATTERNS. An address is that of the RAM: within each of two banks, chosen by row parity, column bits
0 to 6 and then the row bits above the parity.
"""

from collections.abc import Callable
from itertools import cycle, islice
from typing import NamedTuple

PRIME = 89
"""No power of two is a multiple of it, so any two cells whose addresses differ in one line show
different characters."""

PRINTING = 95
"""Printing characters, the space included."""


def solid(rows: int, columns: int, argument: str | None) -> list[str]:
    """One character everywhere."""
    character = _given(argument)
    if len(character) > 1:
        raise ValueError("one character must be given")
    return [character * columns] * rows


def stripes(rows: int, columns: int, argument: str | None) -> list[str]:
    """Columns of two characters in turn."""
    return [_repeated(_given(argument), columns)] * rows


def bars(rows: int, columns: int, argument: str | None) -> list[str]:
    """Rows of two characters in turn."""
    pair = _given(argument)
    return [pair[row % 2] * columns for row in range(rows)]


def checkerboard(rows: int, columns: int, argument: str | None) -> list[str]:
    """Two characters in turn along rows and columns."""
    pair = _given(argument)
    in_turn = _repeated(pair, columns), _repeated(pair[::-1], columns)
    return [in_turn[row % 2] for row in range(rows)]


def diagonal(rows: int, columns: int, argument: str | None) -> list[str]:
    """The printable characters from `argument` on, each row shifted by one: slanting lines."""
    first = ord(argument or "!") - 0x20
    return [_run(first + row, columns) for row in range(rows)]


def row_tags(rows: int, columns: int, _: str | None) -> list[str]:
    """Each row filled with a letter of its own, from A on."""
    return [chr(0x41 + row % 58) * columns for row in range(rows)]


def column_tags(rows: int, columns: int, _: str | None) -> list[str]:
    """Each column filled with a character of its own, from ! on."""
    return [_run(1, columns)] * rows


def ruler(rows: int, columns: int, _: str | None) -> list[str]:
    """Digits along each row, the tens marked by letters."""
    return ["".join(_ruler_mark(column) for column in range(columns))] * rows


def address_parity(rows: int, columns: int, argument: str | None) -> list[str]:
    """The first character where the RAM address has an even number of ones, else the second.

    Any stuck or bridged address line turns half the screen into something else.
    """
    pair = _given(argument)
    return _by_address(rows, columns, lambda address: pair[address.bit_count() % 2])


def address_modulo(rows: int, columns: int, _: str | None) -> list[str]:
    """A character by RAM address modulo a prime: slanting lines.

    They are broken wherever two addresses are one.
    """
    return _by_address(rows, columns, lambda address: chr(0x21 + address % PRIME))


def rotating(rows: int, columns: int, argument: str | None) -> list[str]:
    """The 95 printing characters, 72 in a row, each row beginning one later (RFC 864).

    `argument` is the first row's number.
    """
    first = int(argument or 0)
    return [_run(first + row, 72)[:columns].ljust(columns) for row in range(rows)]


def code_chart(rows: int, columns: int, _: str | None) -> list[str]:
    """The 95 printing characters, 16 in a row with blanks between.

    The columns are those of the ASCII table turned on its side.
    """
    chart = ["", "", *(_chart_row(first) for first in range(0x20, 0x80, 16))]
    lines = (chart + [""] * rows)[:rows]
    return [line[:columns].ljust(columns) for line in lines]


class Pattern(NamedTuple):
    """One kind of screen."""

    draw: Callable[[int, int, str | None], list[str]]
    """(rows, columns, argument) -> rows of characters; ValueError, TypeError or IndexError where it
    cannot use the argument."""
    text: str
    """What it shows, in words."""


PATTERNS = {
    "solid": Pattern(solid, "one character everywhere"),
    "stripes": Pattern(stripes, "columns of two characters in turn"),
    "bars": Pattern(bars, "rows of two characters in turn"),
    "checkerboard": Pattern(checkerboard, "two characters in turn along rows and columns"),
    "diagonal": Pattern(diagonal, "slanting lines of one character"),
    "row-tags": Pattern(row_tags, "a letter for each row"),
    "column-tags": Pattern(column_tags, "a character for each column"),
    "ruler": Pattern(ruler, "digits along each row"),
    "address-parity": Pattern(address_parity, "two characters by the parity of the RAM address"),
    "address-modulo": Pattern(address_modulo, "a character by the RAM address modulo a prime"),
    "rotating": Pattern(rotating, "the rotating pattern of RFC 864"),
    "code-chart": Pattern(code_chart, "every printing character once"),
}


def _given(argument: str | None) -> str:
    """Return the argument of a pattern that cannot do without; raise ValueError."""
    if not argument:
        raise ValueError("an argument must be given")
    return argument


def _repeated(pair: str, length: int) -> str:
    return "".join(islice(cycle(pair), length))


def _run(first: int, length: int) -> str:
    """Return so many printing characters in the order of their codes, round and round."""
    return "".join(chr(0x20 + (first + column) % PRINTING) for column in range(length))


def _ruler_mark(column: int) -> str:
    if column % 10:
        return str(column % 10)
    return chr(0x41 + column // 10 % 26)


def _chart_row(first: int) -> str:
    """Return the printing characters among the 16 codes from `first` on."""
    codes = range(first, min(first + 16, 0x7F))
    return "    " + "  ".join(map(chr, codes))


def _by_address(rows: int, columns: int, character: Callable[[int], str]) -> list[str]:
    """Return a screen whose characters go by the RAM addresses of their cells."""
    return [_row_by_address(row, columns, character) for row in range(rows)]


def _row_by_address(row: int, columns: int, character: Callable[[int], str]) -> str:
    return "".join(character((row // 2) << 7 | column) for column in range(columns))
