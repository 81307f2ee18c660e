"""What the functions of the board do to its cursor counters, its memory and its bell, one small routine for each action."""

from termprobe.board.decoder import coordinate, coordinate_code


class Counters:
    """The cursor counters with their margins, over the memory. Rows and columns count from 0."""

    def __init__(self, profile, wiring, memory, row, column, send):
        self.memory = memory
        self.send = send
        """Hands bytes to the transmitter."""
        self.row, self.column = row, column
        self.last_row, self.last_column = profile.display.rows - 1, profile.display.columns - 1
        self.waits_at_margin = False
        """The last column has been written, and the next code that is stored goes on in the next row first."""
        self.bells = 0
        self.printing = profile.display.printing
        self.coordinates = profile.coordinates
        self.tab_stops = profile.display.tab_stops
        self.missing = wiring.missing
        self.address_offset = wiring.address_offset

    def store(self, codes):
        """Store `codes` one after another at the cursor, which goes on as the margin says."""
        place = 0
        while place < len(codes):
            if self.waits_at_margin:
                self._pass_margin()
            fitting = codes[place : place + self.last_column + 1 - self.column]
            self.memory.write(self.row, self.column, fitting)
            place += len(fitting)
            self.column += len(fitting)
            if self.column > self.last_column:
                self.column = self.last_column
                self._meet_margin()

    def _meet_margin(self):
        if self.printing.last_column == "pending":
            self.waits_at_margin = "margin/no-wrap" not in self.missing
        elif self.printing.last_column == "next-row" and "margin/no-wrap" not in self.missing:
            self._pass_margin()

    def _pass_margin(self):
        self.waits_at_margin = False
        if "margin/column-kept" not in self.missing:
            self.column = 0
        if "margin/row-kept" not in self.missing:
            self.step_down(self.printing.last_row)

    def step_down(self, edge):
        """Count the row up; in the last row do what `edge` says: scroll, stay, or wrap to the top."""
        if self.row < self.last_row:
            self.row += 1
        elif edge == "scroll":
            self.memory.scroll(1)
        elif edge == "wrap":
            self.row = 0

    def step_up(self, edge):
        """Count the row down; in the top row do what `edge` says: scroll, stay, or wrap to the bottom."""
        if self.row > 0:
            self.row -= 1
        elif edge == "scroll":
            self.memory.scroll(-1)
        elif edge == "wrap":
            self.row = self.last_row


def bell(counters, _command, _codes):
    counters.bells += 1


def ignore(_screen, _command, _codes):
    pass


def left(counters, command, _codes):
    if counters.column > 0:
        counters.column -= 1
    elif command.edge == "wrap":
        counters.column = counters.last_column
    elif command.edge == "previous-row" and counters.row > 0:
        counters.column = counters.last_column
        counters.row -= 1


def right(counters, command, _codes):
    if counters.column < counters.last_column:
        counters.column += 1
    elif command.edge == "wrap":
        counters.column = 0
    elif command.edge == "next-row":
        counters.column = 0
        counters.step_down(counters.printing.last_row)


def up(counters, command, _codes):
    counters.step_up(command.edge)


def down(counters, command, _codes):
    counters.step_down(command.edge)


def to_first_column(counters, _command, _codes):
    counters.column = 0


def next_line(counters, command, _codes):
    counters.column = 0
    counters.step_down(command.edge)


def home(counters, _command, _codes):
    if "home/row-kept" not in counters.missing:
        counters.row = 0
    if "home/column-kept" not in counters.missing:
        counters.column = 0


def address(counters, command, codes):
    row, column = codes.get("row"), codes.get("column")
    if "address/exchanged" in counters.missing:
        row, column = column, row
    if row is not None and "address/row-ignored" not in counters.missing:
        counters.row = _loaded(counters, command.edge, row, counters.row, counters.last_row)
    if column is not None and "address/column-ignored" not in counters.missing:
        counters.column = _loaded(
            counters, command.edge, column, counters.column, counters.last_column
        )


def _loaded(counters, edge, code, kept, last):
    """Return what a counter holds after `code` has been offered to it."""
    value = coordinate(counters.coordinates, code) + counters.address_offset
    if 0 <= value <= last:
        return value
    if edge == "clamp":
        return last if value > last else 0
    return kept


def clear(counters, _command, _codes):
    counters.memory.clear()
    if "clear/no-home" not in counters.missing:
        counters.row = counters.column = 0


def erase_display(counters, _command, _codes):
    counters.memory.clear()


def erase_to_end_of_display(counters, command, codes):
    erase_to_end_of_line(counters, command, codes)
    for row in range(counters.row + 1, counters.last_row + 1):
        counters.memory.blank(row, 0, counters.last_column + 1)


def erase_to_start_of_display(counters, command, codes):
    erase_to_start_of_line(counters, command, codes)
    for row in range(counters.row):
        counters.memory.blank(row, 0, counters.last_column + 1)


def erase_line(counters, _command, _codes):
    counters.memory.blank(counters.row, 0, counters.last_column + 1)


def erase_to_end_of_line(counters, _command, _codes):
    counters.memory.blank(counters.row, counters.column, counters.last_column + 1)


def erase_to_start_of_line(counters, _command, _codes):
    counters.memory.blank(counters.row, 0, counters.column + 1)


def tab(counters, command, _codes):
    stop = (
        (counters.column // counters.tab_stops + 1) * counters.tab_stops
        if counters.tab_stops
        else counters.last_column + 1
    )
    if stop <= counters.last_column:
        counters.column = stop
    elif command.edge == "next-row":
        counters.column = 0
        counters.step_down(counters.printing.last_row)
    else:
        counters.column = counters.last_column


def reply(counters, command, _codes):
    counts = {"row": counters.row, "column": counters.column}
    counters.send(
        b"".join(
            part
            if isinstance(part, bytes)
            else bytes([coordinate_code(counters.coordinates, counts[part])])
            for part in command.reply
        )
    )


FUNCTIONS = {
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
"""Actions that move no counter, and so leave a code waiting at the margin. A tab that finds no stop does so too."""


def carry_out(counters, command, codes):
    """Carry out `command`, whose slots have received `codes`."""
    place = counters.row, counters.column
    FUNCTIONS[command.action](counters, command, codes)
    stays = command.action == "tab" and place == (counters.row, counters.column)
    if command.action not in LEAVE_MARGIN and not stays:
        counters.waits_at_margin = False
