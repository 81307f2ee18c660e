"""What the functions of the board do to its counters, its memory and its bell.

There is one small routine for each action.
"""

from collections.abc import Callable, Mapping

from termprobe.board.counters import Counters
from termprobe.board.decoder import coordinate_code
from termprobe.profile.model import Command

SlotCodes = Mapping[str, int]
"""Name of a slot of the command: the code that came for it."""
Routine = Callable[[Counters, Command, SlotCodes], None]


def bell(counters: Counters, _command: Command, _codes: SlotCodes) -> None:
    counters.bells += 1


def ignore(_counters: Counters, _command: Command, _codes: SlotCodes) -> None:
    pass


def left(counters: Counters, command: Command, _codes: SlotCodes) -> None:
    if counters.column > 0:
        counters.step_left()
    elif command.edge == "wrap":
        counters.column = counters.last_column
    elif command.edge == "previous-row" and counters.row > 0:
        counters.column = counters.last_column
        counters.step_up("stay")


def right(counters: Counters, command: Command, _codes: SlotCodes) -> None:
    if counters.column < counters.last_column:
        counters.step_right()
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
ANSWERBACK = b"UNIT 7"
"""What the owner of the board gave it to answer with."""


def reply(counters: Counters, command: Command, _codes: SlotCodes) -> None:
    counts = {"row": counters.row, "column": counters.column}
    data = b""
    for part in command.reply or ():
        if isinstance(part, bytes):
            data += part
        elif part == "parameters":
            data += MODEL
        elif part == "text":
            data += ANSWERBACK
        elif part in counts:
            data += bytes([coordinate_code(counters.coordinates, counts[part])])
        else:
            data += kept_in(counters, command, part)
    counters.send(data)


def kept_in(counters: Counters, command: Command, slot: str) -> bytes:
    """Return the codes that the RAM holds of the rows that `slot` stands for.

    A row is sent from its first column on. A counter of its own goes down the rows, and a code that
    is held back while only blanks follow it is what leaves out those at the end of a row.
    """
    first, last = counters.row, counters.row
    if slot.startswith("screen"):
        first = 0
    if slot == "screen":
        last = counters.last_row
    sent = b""
    for row in range(first, last + 1):
        codes = counters.memory.kept(row)
        if slot.endswith("to-cursor") and row == last:
            codes = codes[: counters.column]
        elif not command.sends_blanks:
            codes = codes.rstrip(b" ")
        sent += bytes(command.row_end) * (row > first) + codes
    return sent


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
