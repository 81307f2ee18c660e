"""Two banks of display RAM with their address and data lines, and what is seen of them.

Before them stands the scroll offset, behind them the character generator.
"""

import random
from collections.abc import Iterable, Iterator
from functools import cache, lru_cache

from termprobe.board.memory_map import BANKS, opened_banks
from termprobe.board.wiring import BANK_CELLS, Wiring
from termprobe.profile.model import Profile
from termprobe.profile.variants import NO_VARIANT, in_ascii, shown_as

BLANK = 0x20
_KEPT = bytes.maketrans(b"\x00\x01", b"\xff\x00")
"""All bits of a cell that clearing does not reach, and none of another."""
SEVEN_BITS = bytes(range(128)) * 2
# What the character generator draws for codes without a character of their own. An invention: no
# such board had them, but an eye and a dump can tell them apart. Unicode, block Control Pictures
# (2400 to 2421).
CHARACTERS = {code: 0x2400 + code for code in range(0x20)} | {0x7F: 0x2421}
_CODES = {character: code for code, character in CHARACTERS.items()}
NO_CODE = 0xFF
"""Stands among codes for a character that the character generator does not have."""


BEHIND_COUNTERS = (
    "clear/bank-0-skipped",
    "clear/bank-1-skipped",
    "scroll/dead",
    "scroll/line-not-cleared",
)
"""Parts of functions that the memory alone does without."""


class Memory:
    """What is kept, where the counters say.

    Rows are display rows until the scroll offset makes them physical.
    """

    def __init__(self, profile: Profile, wiring: Wiring, seed: int) -> None:
        self.rows, self.columns = profile.display.rows, profile.display.columns
        self._row_lines = wiring.buses["row-counter"]
        self._column_lines = wiring.buses["column-counter"]
        self._missing = wiring.missing
        self._step = 1
        """From one lit row to the next."""
        self._stuck = wiring.stuck_bits
        self._connect_addresses(wiring)
        self._connect_data(wiring)
        self._at_power_up = _powered_up(profile.display.power_up, seed)
        self.power_up()

    def light(self, step: int) -> None:
        """Light every row (`step` 1), or every second one (2).

        The count of rows then goes one line higher on the address bus, and its lowest line stays
        low: nothing reaches the dark rows.
        """
        self._step = step

    def power_up(self) -> None:
        """Switch off and on: what was kept is lost, and the scroll offset is 0."""
        self.restore(0, self._at_power_up)

    def restore(self, offset: int, cells: bytes) -> None:
        """Let the scroll offset and all cells of both banks be these, as `cells` gave them."""
        self.offset = offset
        self._cells = bytearray(cells)

    @property
    def cells(self) -> bytes:
        """What all cells of both banks hold."""
        return bytes(self._cells)

    def _connect_addresses(self, wiring: Wiring) -> None:
        """Work out which cells each row opens, so that all else is plain look-ups."""
        select = wiring.buses["bank-select"]
        self._banks = opened_banks(wiring, self.rows, self.columns)
        self._bank = [select[row & 1] for row in range(self.rows)]
        self._opened = [self._banks[bank].rows[row] for row, bank in enumerate(self._bank)]

    def _connect_data(self, wiring: Wiring) -> None:
        self._data = [bytes(wiring.buses[f"bank-{bank}-data"]) * 2 for bank in BANKS]
        self._blanks = [bytes([data[BLANK]]) for data in self._data]
        self._glyphs = bytes(wiring.buses["glyph-address"]) * 2
        self._connect_clear()

    def _connect_clear(self) -> None:
        """Work out which cells clearing reaches; numbers of so many bytes do it at one stroke."""
        kept, blanked = b"", b""
        for bank in BANKS:
            reached = bytes(BANK_CELLS)
            if bank in self._banks and f"clear/bank-{bank}-skipped" not in self._missing:
                reached = self._banks[bank].reached
            kept += reached.translate(_KEPT)
            blanked += reached.replace(b"\x01", self._blanks[bank])
        self._kept, self._blanked = int.from_bytes(kept, "big"), int.from_bytes(blanked, "big")

    def write(self, row: int, column: int, codes: bytes) -> None:
        """Store `codes`, 0 to 127 each, from `row` and `column` on.

        They must fit in the columns that the counter can address, on the screen or beyond it.
        """
        physical = (self._row_lines[row] * self._step + self.offset) % self.rows
        data = codes.translate(self._data[self._bank[physical]])
        opened = self._opened[physical]
        cells = opened.written
        if opened.is_written_in_order:
            start = cells[column]
            self._cells[start : start + len(data)] = data
            return
        for cell, code in zip(cells[column : column + len(data)], data, strict=True):
            self._cells[cell] = code

    def blank(self, row: int, start: int, stop: int) -> None:
        """Store blanks in columns `start` to `stop` - 1 of the display row `row`.

        The display's own counters address them, and go no further than the screen.
        """
        stop = min(stop, self.columns)
        if start >= stop:
            return
        physical = (row * self._step + self.offset) % self.rows
        blank, opened = self._blanks[self._bank[physical]], self._opened[physical]
        cells = opened.shown
        if opened.is_shown_in_order:
            self._cells[cells[start] : cells[start] + stop - start] = blank * (stop - start)
            return
        for cell in cells[start:stop]:
            self._cells[cell] = blank[0]

    def clear(self) -> None:
        """Store blanks wherever the address counters reach as they run through both banks.

        The scroll offset becomes 0. Where every second row is dark, only the lit ones are reached,
        and the offset stays.
        """
        if self._step > 1:
            self._clear_lit()
            return
        self.offset = 0
        cells = int.from_bytes(self._cells, "big") & self._kept | self._blanked
        self._cells = bytearray(cells.to_bytes(2 * BANK_CELLS, "big"))

    def _clear_lit(self) -> None:
        for row in range(self.rows // self._step):
            bank = self._bank[(row * self._step + self.offset) % self.rows]
            if f"clear/bank-{bank}-skipped" not in self._missing:
                self.blank(row, 0, self.columns)

    def scroll(self, step: int) -> None:
        """Move the screen up by a row (`step` 1) or down (-1); the row that comes in is blanked."""
        if "scroll/dead" in self._missing:
            return
        self.offset = (self.offset + step * self._step) % self.rows
        if "scroll/line-not-cleared" not in self._missing:
            incoming = self.rows // self._step - 1 if step > 0 else 0
            self.blank(incoming, 0, self.columns)

    def cursor(self, row: int, column: int) -> tuple[int, int]:
        """Return where the cursor is seen, for the counts `row` and `column`.

        It may lie outside the screen; then it is not seen.
        """
        return self._row_lines[row] * self._step, self._column_lines[column]

    def kept(self, row: int) -> bytes:
        """Return the codes that the RAM gives for the display row `row`, as it is counted."""
        physical = (self._row_lines[row] * self._step + self.offset) % self.rows
        return self._codes(physical)

    def drawn(self) -> bytes:
        """Return the codes that the character generator draws, row after row of the display.

        In a dark row it draws nothing, as if blanks stood there.
        """
        physical = self.read()
        first = self.offset * self.columns
        codes = (physical[first:] + physical[:first]).translate(self._glyphs)
        if self._step == 1:
            return codes
        size, dark = self.columns, bytes([BLANK]) * (self.columns * (self._step - 1))
        starts = range(0, len(codes), size * self._step)
        return b"".join(codes[start : start + size] + dark for start in starts)

    def read(self) -> bytes:
        """Return the codes that the RAM gives to the display, one physical row after the other."""
        return b"".join([self._codes(row) for row in range(self.rows)])

    def _codes(self, physical: int) -> bytes:
        opened = self._opened[physical]
        codes = bytes(opened.read(self._cells))
        if self._stuck:
            return bytes(self._stick_bits(codes, opened.shown))
        return codes

    def _stick_bits(self, codes: bytes, cells: list[int]) -> Iterator[int]:
        for code, cell in zip(codes, cells, strict=True):
            high, low = self._stuck.get(cell, (0, 0))
            yield code & ~low | high


def rows_of(codes: bytes, columns: int, variant: str = NO_VARIANT) -> tuple[str, ...]:
    """Return the rows of characters, each of `columns`, that are seen where `codes` are drawn.

    The characters are those of the national variant of that id.
    """
    text = characters_of(codes, variant)
    return tuple(text[start : start + columns] for start in range(0, len(text), columns))


def characters_of(codes: bytes, variant: str = NO_VARIANT) -> str:
    """Return the character that is seen for each code."""
    return shown_as(codes.decode("latin-1").translate(CHARACTERS), variant)


def codes_of(rows: Iterable[str], variant: str = NO_VARIANT) -> bytes:
    """Return the codes that draw `rows`, as drawn() gives them; NO_CODE where there is none."""
    return _codes_in("".join(rows), variant)


@lru_cache(maxsize=1024)
def _codes_in(text: str, variant: str) -> bytes:
    """Return the codes of the characters; those of a plan's screens are asked for at each look."""
    in_codes = in_ascii(text, variant).translate(_CODES)
    return bytes(min(ord(character), NO_CODE) for character in in_codes)


@cache
def _powered_up(kind: str, seed: int) -> bytes:
    if kind == "blank":
        return bytes([BLANK]) * (2 * BANK_CELLS)
    return random.Random(seed).randbytes(2 * BANK_CELLS).translate(SEVEN_BITS)
