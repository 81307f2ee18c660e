"""Boards with faults of kinds that the catalogue does not have, each made by a small function."""

import random
import re

from termprobe.board.board import Board
from termprobe.board.faults.model import make
from termprobe.board.wiring import Counting, cell_of

CODES = range(128)


def bus(where, becomes):
    """Return what makes boards on whose bus each value becomes another."""

    def edit(wiring):
        values = range(len(wiring.buses[where]))
        wiring.buses[where] = tuple(becomes(value) & (len(values) - 1) for value in values)

    return edited(edit)


def edited(edit):
    """Return what makes boards of which `edit` changes the wiring."""
    return lambda profile: Board(profile, [make("odd/odd/0", "odd", edit)])


def hearing(hears):
    """Return what makes boards that take `hears(data, heard before)` in place of data."""

    class Hearing(Board):
        heard = 0

        def receive(self, data):
            super().receive(hears(data, self.heard))
            self.heard += len(data)

    return Hearing


def drives(code, driver, driven):
    """Return `code` where one line takes the level of another."""
    return code & ~(1 << driven) | (code >> driver & 1) << driven


def rotated(code, lines):
    """Return `code` with each line taken for the next."""
    mask = (1 << lines) - 1
    return code << 1 & mask | code >> (lines - 1)


def lower_to_upper(code):
    return code - 0x20 if 0x61 <= code <= 0x7A else code


def counting_by_two(wiring):
    up = wiring.counting["row-counter"].up
    twice = tuple(up[value] for value in up)
    wiring.counting["row-counter"] = Counting(twice, wiring.counting["row-counter"].down)


def stuck(cells):
    """Return an edit that lets bit 1 of cells, told by rows and columns, read 1."""

    def edit(wiring):
        for row, column in cells:
            wiring.stuck_bits[cell_of(row & 1, row, column)] = (2, 0)

    return edit


def scattered(count):
    chance = random.Random(5)
    return [(chance.randrange(24), chance.randrange(80)) for _ in range(count)]


def every(period, change):
    """Return what is heard where each so manieth byte becomes `change(byte)`, some bytes."""

    def hears(data, before):
        numbered = enumerate(data, before + 1)
        parts = [
            change(code) if number % period == 0 else bytes([code]) for number, code in numbered
        ]
        return b"".join(parts)

    return hears


def replaced(pattern, by):
    return lambda data, _before: re.sub(pattern, by, data, flags=re.DOTALL)


def offset_by_three(wiring):
    wiring.address_offset = 3


def third_bank_missing(wiring):
    """Let a quarter of the columns of both banks read as blanks do not: bit 6 stuck."""
    for row in range(24):
        for column in range(60, 80):
            wiring.stuck_bits[cell_of(row & 1, row, column)] = (64, 0)


ODD_BOARDS = {
    "a received line is inverted": bus("receiver-data", lambda code: code ^ 1),
    "received lines are rotated": bus("receiver-data", lambda code: rotated(code, 7)),
    "three received lines in a ring": bus(
        "receiver-data", lambda code: code & 0x78 | rotated(code & 7, 3)
    ),
    "three received lines touch": bus(
        "receiver-data", lambda code: code & 0x78 | 7 * (code & 7 == 7)
    ),
    "lower case is taken for upper": bus("receiver-data", lower_to_upper),
    "two received lines are stuck": bus("receiver-data", lambda code: code & ~0x12),
    "one received line drives another": bus("receiver-data", lambda code: drives(code, 2, 4)),
    "a line of bank 0 is inverted": bus("bank-0-data", lambda code: code ^ 4),
    "a line of bank 1 drives another": bus("bank-1-data", lambda code: drives(code, 0, 3)),
    "half of the lines of bank 1 are stuck": bus("bank-1-data", lambda code: code & 0x70),
    "one character is drawn as another": bus(
        "glyph-address", lambda code: 0x46 if code == 0x45 else code
    ),
    "the last quarter of characters is blank": bus(
        "glyph-address", lambda code: 0x20 if code >= 0x60 else code
    ),
    "lines of the character generator in a ring": bus(
        "glyph-address", lambda code: code & 0x0F | rotated(code >> 4, 3) << 4
    ),
    "an address line of bank 0 drives another": bus(
        "bank-0-address", lambda address: drives(address, 8, 1)
    ),
    "three address lines of bank 1 in a ring": bus(
        "bank-1-address", lambda address: address & ~7 | rotated(address & 7, 3)
    ),
    "a line of the column counter drives another": bus(
        "column-counter", lambda column: drives(column, 0, 2)
    ),
    "two lines of the row counter are exchanged": bus(
        "row-counter", lambda row: row & ~3 | rotated(row & 3, 2)
    ),
    "the row counter counts by two": edited(counting_by_two),
    "a bit of a whole row is stuck": edited(stuck([(7, column) for column in range(80)])),
    "a bit of a whole column is stuck": edited(stuck([(row, 31) for row in range(24)])),
    "a bit of forty cells is stuck": edited(stuck(scattered(40))),
    "a bit of a quarter of all columns is stuck": edited(third_bank_missing),
    "an address is three too far": edited(offset_by_three),
    "characters are lost": hearing(every(97, lambda code: b"")),
    "characters come twice": hearing(every(61, lambda code: bytes([code, code]))),
    "bits of characters are disturbed": hearing(every(53, lambda code: bytes([code ^ 8]))),
    "return feeds a line as well": hearing(replaced(rb"\r", b"\r\n")),
    "down returns as well": hearing(replaced(rb"\n", b"\r\n")),
    "a blank moves, and writes nothing": hearing(replaced(rb" ", b"\x0c")),
    "left erases": hearing(replaced(rb"\x08", b"\x08 \x08")),
}
"""What is wrong, in words: what makes a board of a profile."""
