"""What the functions of the board do to its counters, its memory and its bell.

There is one small routine for each action.
"""

from collections.abc import Callable, Mapping

from termprobe.board.decoder import coordinate, coordinate_code
from termprobe.board.memory import Memory
from termprobe.board.wiring import Wiring
from termprobe.profile.model import Command, Coordinates, Profile

NO_COORDINATES = Coordinates("binary")
"""Of a profile without coordinates: none of its commands has a slot for one."""


class Counters:
    """The cursor counters with their margins, over the memory. Rows and columns count from 0."""

    def __init__(
        self,
        profile: Profile,
        wiring: Wiring,
        memory: Memory,
        cursor: tuple[int, int],
        send: Callable[[bytes], None],
    ) -> None:
        """`cursor` is the row and column at power-up; `send` hands bytes to the transmitter."""
        self.memory = memory
        self.send = send
        self.row, self.column = cursor
        self.last_row, self.last_column = profile.display.rows - 1, profile.display.columns - 1
        self.waits_at_margin = False
        """The last column has been written; the next code goes on in the next row first."""
        self.bells = 0
        self.printing = profile.display.printing
        self.coordinates = profile.coordinates or NO_COORDINATES
        self.tab_stops = profile.display.tab_stops
        self.missing = wiring.missing
        self.address_offset = wiring.address_offset

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
            fitting = codes[start : start + self.last_column + 1 - self.column]
            self.memory.write(self.row, self.column, fitting)
            start += len(fitting)
            self.column += len(fitting)
            if self.column > self.last_column:
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
            self.row += 1
        elif edge == "scroll":
            self.memory.scroll(1)
        elif edge == "wrap":
            self.row = 0

    def step_up(self, edge: str | None) -> None:
        """Count the row down; in the top row do what `edge` says: scroll, stay, or wrap."""
        if self.row > 0:
            self.row -= 1
        elif edge == "scroll":
            self.memory.scroll(-1)
        elif edge == "wrap":
            self.row = self.last_row

    def loaded(self, code: int, edge: str | None, kept: int, last: int) -> int:
        """Return what a counter that counts to `last` holds after `code` has been offered to it."""
        value = coordinate(self.coordinates, code) + self.address_offset
        if 0 <= value <= last:
            return value
        if edge == "clamp":
            return min(max(value, 0), last)
        return kept


SlotCodes = Mapping[str, int]
"""Name of a slot of the command: the code that came for it."""
Routine = Callable[[Counters, Command, SlotCodes], None]


def bell(counters: Counters, _command: Command, _codes: SlotCodes) -> None:
    counters.bells += 1


def ignore(_counters: Counters, _command: Command, _codes: SlotCodes) -> None:
    pass


def left(counters: Counters, command: Command, _codes: SlotCodes) -> None:
    if counters.column > 0:
        counters.column -= 1
    elif command.edge == "wrap":
        counters.column = counters.last_column
    elif command.edge == "previous-row" and counters.row > 0:
        counters.column = counters.last_column
        counters.row -= 1


def right(counters: Counters, command: Command, _codes: SlotCodes) -> None:
    if counters.column < counters.last_column:
        counters.column += 1
    elif command.edge == "wrap":
        counters.column = 0
    elif command.edge == "next-row":
        counters.column = 0
        counters.step_down(counters.printing.last_row)


def up(counters: Counters, command: Command, _codes: SlotCodes) -> None:
    counters.step_up(command.edge)


def down(counters: Counters, command: Command, _codes: SlotCodes) -> None:
    counters.step_down(command.edge)


def to_first_column(counters: Counters, _command: Command, _codes: SlotCodes) -> None:
    counters.column = 0


def next_line(counters: Counters, command: Command, _codes: SlotCodes) -> None:
    counters.column = 0
    counters.step_down(command.edge)


def home(counters: Counters, _command: Command, _codes: SlotCodes) -> None:
    if "home/row-kept" not in counters.missing:
        counters.row = 0
    if "home/column-kept" not in counters.missing:
        counters.column = 0


def address(counters: Counters, command: Command, codes: SlotCodes) -> None:
    row, column = codes.get("row"), codes.get("column")
    if "address/exchanged" in counters.missing:
        row, column = column, row
    if row is not None and "address/row-ignored" not in counters.missing:
        counters.row = counters.loaded(row, command.edge, counters.row, counters.last_row)
    if column is not None and "address/column-ignored" not in counters.missing:
        counters.column = counters.loaded(
            column, command.edge, counters.column, counters.last_column
        )


def clear(counters: Counters, _command: Command, _codes: SlotCodes) -> None:
    counters.memory.clear()
    if "clear/no-home" not in counters.missing:
        counters.row = counters.column = 0


def erase_display(counters: Counters, _command: Command, _codes: SlotCodes) -> None:
    counters.memory.clear()


def erase_to_end_of_display(counters: Counters, command: Command, codes: SlotCodes) -> None:
    erase_to_end_of_line(counters, command, codes)
    for row in range(counters.row + 1, counters.last_row + 1):
        counters.memory.blank(row, 0, counters.last_column + 1)


def erase_to_start_of_display(counters: Counters, command: Command, codes: SlotCodes) -> None:
    erase_to_start_of_line(counters, command, codes)
    for row in range(counters.row):
        counters.memory.blank(row, 0, counters.last_column + 1)


def erase_line(counters: Counters, _command: Command, _codes: SlotCodes) -> None:
    counters.memory.blank(counters.row, 0, counters.last_column + 1)


def erase_to_end_of_line(counters: Counters, _command: Command, _codes: SlotCodes) -> None:
    counters.memory.blank(counters.row, counters.column, counters.last_column + 1)


def erase_to_start_of_line(counters: Counters, _command: Command, _codes: SlotCodes) -> None:
    counters.memory.blank(counters.row, 0, counters.column + 1)


def tab(counters: Counters, command: Command, _codes: SlotCodes) -> None:
    stop = counters.last_column + 1
    if counters.tab_stops:
        stop = (counters.column // counters.tab_stops + 1) * counters.tab_stops
    if stop <= counters.last_column:
        counters.column = stop
    elif command.edge == "next-row":
        counters.column = 0
        counters.step_down(counters.printing.last_row)
    else:
        counters.column = counters.last_column


MODEL = b"?7"
"""The parameters of a report on the kind of board: a private one, invented."""


def reply(counters: Counters, command: Command, _codes: SlotCodes) -> None:
    counts = {"row": counters.row, "column": counters.column}
    data = b""
    for part in command.reply or ():
        if isinstance(part, bytes):
            data += part
        elif part == "parameters":
            data += MODEL
        else:
            data += bytes([coordinate_code(counters.coordinates, counts[part])])
    counters.send(data)


FUNCTIONS: dict[str, Routine] = {
    "bell": bell,
    "ignore": ignore,
    "left": left,
    "right": right,
    "up": up,
    "down": down,
    "return": to_first_column,
    "next-line": next_line,
    "home": home,
    "address": address,
    "address-row": address,
    "address-column": address,
    "clear": clear,
    "erase-display": erase_display,
    "erase-to-end-of-display": erase_to_end_of_display,
    "erase-to-start-of-display": erase_to_start_of_display,
    "erase-line": erase_line,
    "erase-to-end-of-line": erase_to_end_of_line,
    "erase-to-start-of-line": erase_to_start_of_line,
    "tab": tab,
    "reply": reply,
}
"""Action of a profile's command: the routine of the board that carries it out."""

LEAVE_MARGIN = ("bell", "ignore", "reply")
"""Actions that move no counter, and so leave a code waiting at the margin.

A tab that finds no stop does so too.
"""


def obey(counters: Counters, command: Command, codes: SlotCodes) -> None:
    """Carry out `command`, whose slots have received `codes`."""
    before = counters.cursor
    FUNCTIONS[command.action](counters, command, codes)
    stays = command.action == "tab" and before == counters.cursor
    if command.action not in LEAVE_MARGIN and not stays:
        counters.waits_at_margin = False
