"""Faults of single cells of the display RAM: one bit that always reads the same."""

import re
from collections.abc import Iterator
from functools import partial

from termprobe.board.faults.model import Fault, make
from termprobe.board.wiring import DATA_LINES, Wiring, cell_of
from termprobe.errors import UsageError
from termprobe.profile.model import Profile

BLOCKS = ("cell",)
_NAME = re.compile(r"cell/stuck/(\d{1,3})-(\d{1,3})-(\d)/([01])")


def faults(_profile: Profile) -> Iterator[Fault]:
    """Yield none: a board has thousands of bits, and each can be asked for by name."""
    yield from ()


def fault_named(profile: Profile, name: str) -> Fault:
    """Return the fault `cell/stuck/ROW-COLUMN-BIT/LEVEL`; raise UsageError without such a cell."""
    rows, columns = profile.display.rows, profile.display.columns
    parts = _NAME.fullmatch(name)
    if parts:
        row, column, bit, level = map(int, parts.groups())
        if row < rows and column < columns and bit < DATA_LINES:
            return _stuck_bit(row, column, bit, level)
    raise UsageError(
        f"a fault of a cell must be cell/stuck/ROW-COLUMN-BIT/LEVEL, row 0 to {rows - 1}, "
        f"column 0 to {columns - 1}, bit 0 to {DATA_LINES - 1}, level 0 or 1, "
        f'not "{name}"'
    )


def _stuck_bit(row: int, column: int, bit: int, level: int) -> Fault:
    return make(
        f"cell/stuck/{row}-{column}-{bit}/{level}",
        f"bit {bit} of the RAM cell of row {row}, column {column}, as counted after a clear, "
        f"is stuck at {level}",
        partial(_stick, cell_of(row & 1, row, column), 1 << bit, level),
    )


def _stick(cell: int, bit: int, level: int, wiring: Wiring) -> None:
    high, low = wiring.stuck_bits.get(cell, (0, 0))
    if level:
        wiring.stuck_bits[cell] = high | bit, low & ~bit
    else:
        wiring.stuck_bits[cell] = high & ~bit, low | bit
