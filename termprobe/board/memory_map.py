"""Which cells of the RAM the counters of a board open, worked out of its address lines."""

from collections.abc import Callable, Sequence
from functools import lru_cache
from operator import itemgetter
from typing import NamedTuple

from termprobe.board.wiring import BANK_CELLS, COLUMN_LINES, Table, Wiring, address_of, bank_cells

BANKS = (0, 1)
_KEPT_BANKS = 64
"""Boards with faults elsewhere share a bank; that many others are kept."""

Taker = Callable[[Sequence[int]], Sequence[int]]
"""Takes what stands at certain numbers."""


class OpenedRow(NamedTuple):
    """The cells that a physical row opens."""

    shown: list[int]
    """For each column that the display reads."""
    written: list[int]
    """For each count of the column counter."""
    is_shown_in_order: bool
    """Whether each cell that is shown follows the one before."""
    is_written_in_order: bool
    read: Taker
    """Takes the cells of all banks; returns the codes in those that are shown."""


class OpenedBank(NamedTuple):
    """A bank, as its address lines open it."""

    rows: dict[int, OpenedRow]
    """For each physical row in which the bank is selected."""
    reached: bytes
    """For each cell of the bank 1 where any address opens it, and else 0."""


def opened_banks(wiring: Wiring, rows: int, columns: int) -> dict[int, OpenedBank]:
    """Return what the lines of `wiring` open in each bank that is selected in any of the `rows`.

    The display reads so many `columns`. Boards whose bank is wired alike share it.
    """
    select, shared = wiring.buses["bank-select"], wiring.buses["ram-address"]
    column_lines = wiring.buses["column-counter"]
    banks = {}
    for bank in sorted(set(select)):
        selected = tuple(row for row in range(rows) if select[row & 1] == bank)
        own = wiring.buses[f"bank-{bank}-address"]
        banks[bank] = _opened(bank, shared, own, column_lines, selected, columns)
    return banks


@lru_cache(maxsize=_KEPT_BANKS)
def _opened(
    bank: int, shared: Table, own: Table, column_lines: Table, rows: tuple[int, ...], columns: int
) -> OpenedBank:
    cells = bank_cells(bank, shared, own)
    counted = itemgetter(*column_lines)
    opened = {row: _opened_row(_cells_of_row(cells, row), counted, columns) for row in rows}
    return OpenedBank(opened, _reached(bank, cells))


def _opened_row(cells: list[int], counted: Taker, columns: int) -> OpenedRow:
    shown, written = cells[:columns], list(counted(cells))
    is_shown_in_order = _in_order(shown)
    read: Taker = itemgetter(*shown)
    if is_shown_in_order:
        read = itemgetter(slice(shown[0], shown[0] + columns))
    return OpenedRow(shown, written, is_shown_in_order, _in_order(written), read)


def _cells_of_row(bank: list[int], row: int) -> list[int]:
    """Return the cells that the physical `row` opens in its bank, one for each column count."""
    start = address_of(row, 0)
    return bank[start : start + (1 << COLUMN_LINES)]


def _reached(bank: int, cells: list[int]) -> bytes:
    opened = set(cells)
    return bytes(map(opened.__contains__, range(bank * BANK_CELLS, (bank + 1) * BANK_CELLS)))


def _in_order(cells: list[int]) -> bool:
    """Tell whether each cell follows the one before."""
    is_long_enough = cells[-1] - cells[0] == len(cells) - 1
    return is_long_enough and cells == list(range(cells[0], cells[0] + len(cells)))
