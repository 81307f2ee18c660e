"""The cursor counters of a board with their margins, over its memory."""

from collections.abc import Callable
from typing import NamedTuple

from termprobe.board.decoder import coordinate
from termprobe.board.memory import Memory
from termprobe.board.wiring import Table, Wiring
from termprobe.profile.model import Coordinates, Profile

NO_COORDINATES = Coordinates("binary")
"""Of a profile without coordinates: none of its commands has a slot for one."""


class Counted(NamedTuple):
    """What the counters hold."""

    row: int
    column: int
    waits_at_margin: bool = False
    """The last column has been written; the next code goes on in the next row first."""
    bells: int = 0
    """How often the bell has sounded since power-up."""


class Counters:
    """The cursor counters with their margins, over the memory. Rows and columns count from 0."""

    def __init__(
        self,
        profile: Profile,
        wiring: Wiring,
        memory: Memory,
        counts: Counted,
        send: Callable[[bytes], None],
    ) -> None:
        """`counts` are those at power-up; `send` hands bytes to the transmitter."""
        self.memory = memory
        self.send = send
        self.counts = counts
        self.last_row, self.last_column = profile.display.rows - 1, profile.display.columns - 1
        self.printing = profile.display.printing
        self.coordinates = profile.coordinates or NO_COORDINATES
        self.tab_stops = profile.display.tab_stops
        self.missing = wiring.missing
        self.address_offset = wiring.address_offset
        self._rows, self._columns = (
            wiring.counting["row-counter"],
            wiring.counting["column-counter"],
        )
        self._runs = _runs(self._columns.up, self.last_column)

    @property
    def counts(self) -> Counted:
        """What they hold; it can be set."""
        return Counted(self.row, self.column, self.waits_at_margin, self.bells)

    @counts.setter
    def counts(self, counts: Counted) -> None:
        self.row, self.column, self.waits_at_margin, self.bells = counts

    @property
    def cursor(self) -> tuple[int, int]:
        """The counts of row and column."""
        return self.row, self.column

    def store(self, codes: bytes) -> None:
        """Store `codes` one after another at the cursor, which goes on as the margin says."""
        start = 0
        while start < len(codes):
            if self.waits_at_margin:
                self._pass_margin()
            fitting = codes[start : start + self._runs[self.column]]
            self.memory.write(self.row, self.column, fitting)
            start += len(fitting)
            filled = self.column + len(fitting) - 1
            if filled < self.last_column:
                self.column = self._columns.up[filled]
            else:
                self.column = self.last_column
                self._meet_margin()

    def _meet_margin(self) -> None:
        if self.printing.last_column == "pending":
            self.waits_at_margin = "margin/no-wrap" not in self.missing
        elif self.printing.last_column == "next-row" and "margin/no-wrap" not in self.missing:
            self._pass_margin()

    def _pass_margin(self) -> None:
        self.waits_at_margin = False
        if "margin/column-kept" not in self.missing:
            self.column = 0
        if "margin/row-kept" not in self.missing:
            self.step_down(self.printing.last_row)

    def step_down(self, edge: str | None) -> None:
        """Count the row up; in the last row do what `edge` says: scroll, stay, or wrap."""
        if self.row < self.last_row:
            self.row = self._rows.up[self.row]
        elif edge == "scroll":
            self.memory.scroll(1)
        elif edge == "wrap":
            self.row = 0

    def step_up(self, edge: str | None) -> None:
        """Count the row down; in the top row do what `edge` says: scroll, stay, or wrap."""
        if self.row > 0:
            self.row = self._rows.down[self.row]
        elif edge == "scroll":
            self.memory.scroll(-1)
        elif edge == "wrap":
            self.row = self.last_row

    def step_right(self) -> None:
        """Count the column up."""
        self.column = self._columns.up[self.column]

    def step_left(self) -> None:
        """Count the column down."""
        self.column = self._columns.down[self.column]

    def loaded(self, code: int, edge: str | None, kept: int, last: int) -> int:
        """Return what a counter that counts to `last` holds after `code` has been offered to it."""
        value = coordinate(self.coordinates, code) + self.address_offset
        if 0 <= value <= last:
            return value
        if edge == "clamp":
            return min(max(value, 0), last)
        return kept


def _runs(up: Table, last_column: int) -> list[int]:
    """Return for each column how many codes can be stored from it on, each beside the one before.

    Runs end at the last column, and where the counter skips.
    """
    runs = [1] * len(up)
    for column in reversed(range(last_column)):
        if up[column] == column + 1:
            runs[column] = runs[column + 1] + 1
    return runs
