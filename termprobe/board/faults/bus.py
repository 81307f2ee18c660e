"""Faults of the buses and counters: lines stuck, swapped, bridged; and single RAM cells."""

import re
from functools import partial
from itertools import combinations

from termprobe.board.faults.model import make
from termprobe.board.wiring import BUSES, DATA_LINES, cell_of
from termprobe.errors import UsageError

ALL, STUCK = ("stuck", "swapped", "bridged"), ("stuck",)
KINDS_AND_WORDS = {
    "receiver-data": (ALL, "data", "of the receiver"),
    "bank-0-data": (ALL, "data", "of RAM bank 0"),
    "bank-1-data": (ALL, "data", "of RAM bank 1"),
    "glyph-address": (ALL, "code", "of the character generator"),
    "transmitter-data": (ALL, "data", "of the transmitter"),
    "keyboard-code": (ALL, "code", "of the keyboard"),
    "ram-address": (ALL, "address", "of both RAM banks"),
    "bank-0-address": (ALL, "address", "of RAM bank 0"),
    "bank-1-address": (ALL, "address", "of RAM bank 1"),
    "bank-select": (STUCK, "select", "of the RAM banks"),
    "row-counter": (STUCK, "output", "of the row counter"),
    "column-counter": (STUCK, "output", "of the column counter"),
}
"""For each bus: which faults its lines can have, and the words around a line's number in a title."""


def stuck(value, line, level):
    """Return `value` as it leaves a bus whose `line` is held at `level`."""
    return value | 1 << line if level else value & ~(1 << line)


def swapped(value, first, second):
    """Return `value` as it leaves a bus whose two lines are exchanged."""
    differs = (value >> first ^ value >> second) & 1
    return value ^ (differs << first | differs << second)


def bridged(value, first, second, level):
    """Return `value` as it leaves a bus whose two lines touch: both carry `level` if either does."""
    both = value >> first & value >> second & 1
    either = (value >> first | value >> second) & 1
    return stuck(stuck(value, first, either if level else both), second, either if level else both)


def faults_of_bus(bus, profile):
    """Yield every fault of one bus of BUSES."""
    kinds, kind_of_line, whose = KINDS_AND_WORDS[bus]
    lines = range(BUSES[bus])
    labels = profile.circuit.labels.get(bus, ()) if profile.circuit else ()
    word = [f"{line} ({labels[line]})" if line < len(labels) else str(line) for line in lines]
    for line in lines:
        for level in (0, 1):
            title = f"{kind_of_line} line {word[line]} {whose} always reads {level}"
            yield make(
                f"{bus}/stuck/{line}/{level}", title, partial(_edit, bus, stuck, (line, level))
            )
    for first, second in combinations(lines, 2) if kinds == ALL else ():
        name, both = (
            f"{first}-{second}",
            f"{kind_of_line} lines {word[first]} and {word[second]} {whose}",
        )
        yield make(
            f"{bus}/swapped/{name}",
            f"{both} are exchanged",
            partial(_edit, bus, swapped, (first, second)),
        )
        for level, level_word in enumerate(("low", "high")):
            yield make(
                f"{bus}/bridged/{name}/{level_word}",
                f"{both} touch, and {level_word} wins",
                partial(_edit, bus, bridged, (first, second, level)),
            )


def _edit(bus, function, details, wiring):
    wiring.buses[bus] = [function(value, *details) for value in wiring.buses[bus]]


def cell_fault(profile, name):
    """Return the fault `cell/stuck/ROW-COLUMN-BIT/LEVEL`; raise UsageError where there is no such cell."""
    display = profile.display
    parts = re.fullmatch(r"cell/stuck/(\d{1,3})-(\d{1,3})-(\d)/([01])", name)
    row, column, bit, level = (
        (int(part) for part in parts.groups()) if parts else (0, 0, DATA_LINES, 0)
    )
    if row >= display.rows or column >= display.columns or bit >= DATA_LINES:
        raise UsageError(
            f"a fault of a cell must be cell/stuck/ROW-COLUMN-BIT/LEVEL, row 0 to {display.rows - 1}, column 0 "
            f'to {display.columns - 1}, bit 0 to {DATA_LINES - 1}, level 0 or 1, not "{name}"'
        )
    title = f"bit {bit} of the RAM cell of row {row}, column {column}, as counted after a clear, always reads {level}"
    return make(
        f"cell/stuck/{row}-{column}-{bit}/{level}",
        title,
        partial(_stick, cell_of(row & 1, row, column), 1 << bit, level),
    )


def _stick(cell, bit, level, wiring):
    high, low = wiring.stuck_bits.get(cell, (0, 0))
    wiring.stuck_bits[cell] = (high | bit, low & ~bit) if level else (high & ~bit, low | bit)
