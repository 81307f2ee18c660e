"""The pattern library: screens made for eyes. Each is regular, so that a break in it is seen at a
glance.

A pattern is a function of (rows, columns, argument) that returns rows of characters. An address is
that of the RAM: within
each of two banks, chosen by row parity, column bits 0 to 6 and then the row bits above the parity.
"""

import itertools

PRIME = 89
"""No power of two is a multiple of it, so any two cells whose addresses differ in one line show
different characters.
"""


def solid(rows, columns, argument):
    """One character everywhere."""
    return [argument * columns] * rows


def stripes(rows, columns, argument):
    """Columns of two characters in turn."""
    return [_repeated(argument, columns)] * rows


def bars(rows, columns, argument):
    """Rows of two characters in turn."""
    return [argument[row % 2] * columns for row in range(rows)]


def checkerboard(rows, columns, argument):
    """Two characters in turn along rows and columns."""
    return [_repeated(argument if row % 2 == 0 else argument[::-1], columns) for row in range(rows)]


def diagonal(rows, columns, argument):
    """The printable characters from `argument` on, each row shifted by one: slanting lines of one
    character.
    """
    return [_run(ord(argument or "!") - 0x20 + row, columns) for row in range(rows)]


def row_tags(rows, columns, _):
    """Each row filled with a letter of its own, from A on."""
    return [chr(0x41 + row % 58) * columns for row in range(rows)]


def column_tags(rows, columns, _):
    """Each column filled with a character of its own, from ! on."""
    return [_run(1, columns)] * rows


def ruler(rows, columns, _):
    """Digits along each row, the tens marked by letters."""
    line = "".join(
        chr(0x41 + column // 10 % 26) if column % 10 == 0 else str(column % 10)
        for column in range(columns)
    )
    return [line] * rows


def address_parity(rows, columns, argument):
    """The first character where the RAM address has an even number of ones, the second elsewhere:
    any stuck or bridged
    address line turns half the screen into something else."""
    return [
        "".join(argument[_address(row, column).bit_count() % 2] for column in range(columns))
        for row in range(rows)
    ]


def address_modulo(rows, columns, _):
    """A character by RAM address modulo a prime: slanting lines, broken wherever two addresses are
    one.
    """
    return [
        "".join(chr(0x21 + _address(row, column) % PRIME) for column in range(columns))
        for row in range(rows)
    ]


def rotating(rows, columns, argument):
    """The 95 printing characters, 72 in a row, each row beginning one later (RFC 864); `argument`
    is the first row's number.
    """
    first = int(argument or 0)
    return [_run(first + row, 72)[:columns].ljust(columns) for row in range(rows)]


def code_chart(rows, columns, _):
    """The 95 printing characters, 16 in a row with blanks between, in the columns of the ASCII
    table turned on its side.
    """
    chart = ["", ""] + [
        "    " + "  ".join(chr(code) for code in range(first, min(first + 16, 0x7F)))
        for first in range(0x20, 0x80, 16)
    ]
    return [
        line[:columns].ljust(columns)
        for line in itertools.islice(itertools.chain(chart, itertools.repeat("")), rows)
    ]


PATTERNS = {
    "solid": (solid, "one character everywhere"),
    "stripes": (stripes, "columns of two characters in turn"),
    "bars": (bars, "rows of two characters in turn"),
    "checkerboard": (checkerboard, "two characters in turn along rows and columns"),
    "diagonal": (diagonal, "slanting lines of one character"),
    "row-tags": (row_tags, "a letter for each row"),
    "column-tags": (column_tags, "a character for each column"),
    "ruler": (ruler, "digits along each row"),
    "address-parity": (address_parity, "two characters by the parity of the RAM address"),
    "address-modulo": (address_modulo, "a character by the RAM address modulo a prime"),
    "rotating": (rotating, "the rotating pattern of RFC 864"),
    "code-chart": (code_chart, "every printing character once"),
}


def _address(row, column):
    return (row // 2) << 7 | column


def _run(first, length):
    return "".join(chr(0x20 + (first + column) % 95) for column in range(length))


def _repeated(pair, length):
    return (pair * (length // len(pair) + 1))[:length]
