"""Two banks of display RAM with their address and data lines, the scroll offset, and the character generator behind them."""

import random
from operator import itemgetter

from termprobe.board.wiring import BANK_CELLS, COLUMN_LINES, address_of, bank_cells

BLANK = 0x20
SEVEN_BITS = bytes(range(128)) * 2
# What the character generator draws for codes without a character of their own. An invention: no such board had them, but
# an eye and a dump can tell them apart. Unicode, block Control Pictures (2400 to 2421).
CHARACTERS = {code: 0x2400 + code for code in range(0x20)} | {0x7F: 0x2421}


class Memory:
    """What is kept, where the counters say; rows are display rows until the scroll offset makes them physical."""

    def __init__(self, profile, wiring, seed):
        self.rows, self.columns = profile.display.rows, profile.display.columns
        self.offset = 0
        self._row_lines = wiring.buses["row-counter"]
        self._column_lines = wiring.buses["column-counter"]
        self._missing = wiring.missing
        self._stuck = wiring.stuck_bits
        self._connect(wiring)
        self._cells = self._power_up(profile.display.power_up, seed)

    def _connect(self, wiring):
        """Work out which cell each counter value opens, once, so that storing and showing are plain look-ups."""
        banks = [bank_cells(wiring, bank) for bank in (0, 1)]
        self._bank = [wiring.buses["bank-select"][row & 1] for row in range(self.rows)]
        starts = [address_of(row, 0) for row in range(self.rows)]
        self._shown = [
            banks[bank][start : start + self.columns] for bank, start in zip(self._bank, starts)
        ]
        if self._column_lines == list(range(1 << COLUMN_LINES)):
            self._written = self._shown
        else:
            self._written = [
                [banks[bank][start + column] for column in self._column_lines]
                for bank, start in zip(self._bank, starts)
            ]
        self._written_in_order = [_in_order(cells) for cells in self._written]
        self._shown_in_order = [_in_order(cells) for cells in self._shown]
        self._readers = [itemgetter(*cells) for cells in self._shown]
        self._data = [bytes(wiring.buses[f"bank-{bank}-data"]) * 2 for bank in (0, 1)]
        self._blanks = [bytes([self._data[bank][BLANK]]) for bank in (0, 1)]
        self._cleared = [_runs(banks[bank]) for bank in sorted(set(wiring.buses["bank-select"]))]
        self._glyphs = bytes(wiring.buses["glyph-address"]) * 2

    def _power_up(self, kind, seed):
        if kind == "blank":
            return bytearray([BLANK]) * (2 * BANK_CELLS)
        return bytearray(random.Random(seed).randbytes(2 * BANK_CELLS).translate(SEVEN_BITS))

    def write(self, row, column, codes):
        """Store `codes`, 0 to 127 each, from `row` and `column` on; they must fit in the row."""
        physical = (self._row_lines[row] + self.offset) % self.rows
        data = codes.translate(self._data[self._bank[physical]])
        cells = self._written[physical]
        if self._written_in_order[physical]:
            start = cells[column]
            self._cells[start : start + len(data)] = data
            return
        for cell, code in zip(cells[column : column + len(data)], data):
            self._cells[cell] = code

    def blank(self, row, start, stop):
        """Store blanks in columns `start` to `stop` - 1 of the display row `row`; the display's own counters address them."""
        physical = (row + self.offset) % self.rows
        blank, cells = self._blanks[self._bank[physical]], self._shown[physical]
        if self._shown_in_order[physical]:
            self._cells[cells[start] : cells[start] + stop - start] = blank * (stop - start)
            return
        for cell in cells[start:stop]:
            self._cells[cell] = blank[0]

    def clear(self):
        """Store blanks wherever the address counters reach as they run through both banks; set the scroll offset to 0."""
        self.offset = 0
        for runs in self._cleared:
            bank = runs[0][0] // BANK_CELLS
            if f"clear/bank-{bank}-skipped" not in self._missing:
                for start, stop in runs:
                    self._cells[start:stop] = self._blanks[bank] * (stop - start)

    def scroll(self, step):
        """Move the screen up by a row (`step` 1) or down (-1); the row that comes in is blanked."""
        if "scroll/dead" in self._missing:
            return
        self.offset = (self.offset + step) % self.rows
        if "scroll/line-not-cleared" not in self._missing:
            self.blank(self.rows - 1 if step > 0 else 0, 0, self.columns)

    def cursor(self, row, column):
        """Return where the cursor is seen, for the counts `row` and `column`; it may lie outside the screen, then it is not."""
        return self._row_lines[row], self._column_lines[column]

    def screen(self):
        """Return the rows of characters that are seen."""
        return tuple(self._signs((row + self.offset) % self.rows) for row in range(self.rows))

    def _signs(self, physical):
        codes = bytearray(self._readers[physical](self._cells))
        for column, cell in enumerate(self._shown[physical]) if self._stuck else ():
            high, low = self._stuck.get(cell, (0, 0))
            codes[column] = codes[column] & ~low | high
        return codes.translate(self._glyphs).decode("ascii").translate(CHARACTERS)


def _in_order(cells):
    """Tell whether each cell follows the one before."""
    return cells == list(range(cells[0], cells[0] + len(cells)))


def _runs(cells):
    """Return `cells` as (start, stop) of each unbroken run, in order."""
    if _in_order(cells):
        return [(cells[0], cells[-1] + 1)]
    cells = set(cells)
    ordered = sorted(cells)
    starts = [cell for cell in ordered if cell - 1 not in cells]
    stops = [cell + 1 for cell in ordered if cell + 1 not in cells]
    return list(zip(starts, stops))
