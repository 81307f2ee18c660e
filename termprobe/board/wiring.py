"""The wiring of a board as tables: what leaves a bus for each value that enters it.

A fault is an edit of these tables. A healthy bus maps every value to itself. RAM address: column in
bits 0 to 6, half the physical row in bits 7 to 10; the parity of the physical row selects the bank.
"""

from dataclasses import dataclass, field
from operator import itemgetter
from typing import NamedTuple

from termprobe.errors import UsageError
from termprobe.profile.model import Circuit, Profile

COLUMN_LINES, ROW_LINES, DATA_LINES, ADDRESS_LINES = 7, 5, 7, 11
BANK_CELLS = 1 << ADDRESS_LINES
STUCK, SWAPPED, BRIDGED = "stuck", "swapped", "bridged"
CARRY_LOST, BORROW_LOST = "carry-lost", "borrow-lost"
ANY_KIND = (STUCK, SWAPPED, BRIDGED)
OF_A_COUNTER = (STUCK, CARRY_LOST, BORROW_LOST)
CHIP_LINES = 4
"""Outputs of one binary counter; the lines of a longer one count by carry and borrow between."""


class Bus(NamedTuple):
    """Lines that carry one value."""

    where: str
    """Its name, with which the names of its faults begin."""
    lines: int
    carries: str
    """What titles call its lines: `data` line 3."""
    block: str
    """The part of the circuit that it serves, as titles name it."""
    kinds: tuple[str, ...] = ANY_KIND
    """What can be wrong with its lines."""


KEYBOARD_CODE = Bus("keyboard-code", DATA_LINES, "code", "the keyboard")
ROW_SCAN = Bus("row-scan", 4, "row", "the character generator")
"""Tells the character generator which row of a drawing is wanted, by the scan line. Where three
lines do, the highest is not there."""
DOT_COLUMN = Bus("dot-column", 8, "dot", "the character generator", (SWAPPED, BRIDGED))
"""Takes a row of dots from there to the shift register, line 0 the leftmost; so many lines are
there as a drawing has columns."""
DOT_BUSES = (ROW_SCAN.where, DOT_COLUMN.where)
"""Buses behind the code of a cell: a profile that tells of its dots has them."""
_BUSES = (
    #   where               lines          carries    block
    Bus("receiver-data", DATA_LINES, "data", "the receiver"),
    Bus("bank-0-data", DATA_LINES, "data", "RAM bank 0"),
    Bus("bank-1-data", DATA_LINES, "data", "RAM bank 1"),
    Bus("glyph-address", DATA_LINES, "code", "the character generator"),
    Bus("transmitter-data", DATA_LINES, "data", "the transmitter"),
    KEYBOARD_CODE,
    Bus("ram-address", ADDRESS_LINES, "address", "both RAM banks"),
    Bus("bank-0-address", ADDRESS_LINES, "address", "RAM bank 0"),
    Bus("bank-1-address", ADDRESS_LINES, "address", "RAM bank 1"),
    Bus("bank-select", 1, "select", "the RAM banks", (STUCK,)),
    Bus("row-counter", ROW_LINES, "output", "the row counter", OF_A_COUNTER),
    Bus("column-counter", COLUMN_LINES, "output", "the column counter", OF_A_COUNTER),
    ROW_SCAN,
    DOT_COLUMN,
)
BUSES = {bus.where: bus for bus in _BUSES}
"""Name of each bus: the Bus."""

Table = tuple[int, ...]
"""What comes out of a bus for each value put in."""
_HEALTHY: dict[str, Table] = {bus.where: tuple(range(1 << bus.lines)) for bus in _BUSES}
COUNTERS = tuple(bus.where for bus in _BUSES if CARRY_LOST in bus.kinds)


class Counting(NamedTuple):
    """What a counter holds after one pulse, for each value before."""

    up: Table
    down: Table


def _counting(lines: int) -> Counting:
    values = 1 << lines
    up = tuple((value + 1) % values for value in range(values))
    return Counting(up, tuple((value - 1) % values for value in range(values)))


_COUNTING = {where: _counting(BUSES[where].lines) for where in COUNTERS}


@dataclass
class MatrixLines:
    """The connections of the rows, or of the columns, of a key matrix; lines go by numbers."""

    open: set[int] = field(default_factory=set)
    """Lines that do not reach the scan."""
    exchanged: dict[int, int] = field(default_factory=dict)
    """For a line of the matrix the one of the scan that it is connected to, where that differs."""
    bridges: set[tuple[int, int]] = field(default_factory=set)
    """Pairs of lines that touch."""

    def touches(self, line: int) -> bool:
        """Return whether anything of this is said of `line`."""
        is_bridged = any(line in pair for pair in self.bridges)
        return is_bridged or line in self.open or line in self.exchanged


@dataclass
class KeyWiring:
    """The connections of a keyboard, healthy while every field is empty. Keys go by their names."""

    rows: MatrixLines = field(default_factory=MatrixLines)
    columns: MatrixLines = field(default_factory=MatrixLines)
    shorted_diodes: set[tuple[int, int]] = field(default_factory=set)
    """Crossings (row, column) whose diode conducts both ways."""
    dead: set[str] = field(default_factory=set)
    bouncing: set[str] = field(default_factory=set)
    flaky: set[str] = field(default_factory=set)
    """Keys of which only every second press makes contact, the first one included."""
    exchanged: dict[str, str] = field(default_factory=dict)
    """For a key the one whose contact it closes instead of its own."""
    lines: dict[str, bool] = field(default_factory=dict)
    """For `shift` or `control` the level at which the line is held."""


@dataclass
class Wiring:
    """One board's connections, healthy until a fault edits them."""

    buses: dict[str, Table] = field(default_factory=_HEALTHY.copy)
    """Name of each bus: its table."""
    counting: dict[str, Counting] = field(default_factory=_COUNTING.copy)
    """Name of each counter: how it counts."""
    decoder: dict[str, str | None] = field(default_factory=dict)
    """For each command whose coding is recognised, the one that is carried out, or None."""
    also_written: set[str] = field(default_factory=set)
    """Commands whose last fixed code is stored and advances the cursor, before they are obeyed."""
    missing: set[str] = field(default_factory=set)
    """Names of faults in which a part of a function is missing, such as `margin/no-wrap`.

    The board asks for them.
    """
    address_offset: int = 0
    """Added to both coordinates of an address."""
    stuck_bits: dict[int, tuple[int, int]] = field(default_factory=dict)
    """For a RAM cell, bank times BANK_CELLS plus address: (bits that read 1, bits that read 0)."""
    echo_gate: str = ""
    """Empty: as the switch says. `stuck-open`: never shows the board's own keys. `stuck-closed`:
    always does."""
    handshake_ignored: bool = False
    """The transmitter does not wait for the other side."""
    parity: str = ""
    """Empty: as the profile says; `inverted`; `0` or `1`: the bit is sent fixed at that level."""
    speed_ratio: float = 1.0
    """How much faster than it should the line's clock runs."""
    keys: KeyWiring = field(default_factory=KeyWiring)
    shift_register: dict[int, int] = field(default_factory=dict)
    """For a stage of it that is stuck its level. Stage 0 drives the output, and each dot goes
    through the stages to its left."""
    stuck_dots: dict[tuple[int, int], tuple[int, int]] = field(default_factory=dict)
    """For a code and a row of its drawing: (dots that are always lit, dots that never are)."""
    light: set[str] = field(default_factory=set)
    """Names of faults behind the shift register, such as `cursor/dead`. The tube asks for them."""

    def lead_through(self, where: str, changed: Table) -> None:
        """Let what leaves the bus `where` go through `changed`, which has each of its values."""
        before = self.buses[where]
        if before is _HEALTHY[where]:
            self.buses[where] = changed
        else:
            self.buses[where] = tuple(map(changed.__getitem__, before))


def wire(profile: Profile) -> Wiring:
    """Return the healthy Wiring of a board of `profile`; raise as circuit_of."""
    circuit_of(profile)
    return Wiring(decoder={str(command.name): str(command.name) for command in profile.commands})


def circuit_of(profile: Profile) -> Circuit:
    """Return the circuit of `profile`.

    Raise UsageError where a board of it cannot be simulated at circuit level.
    """
    name, circuit = profile.id, profile.circuit
    if circuit is None or profile.grammar != "codes":
        raise UsageError(
            f"{name}: a simulated board needs a profile with a section circuit and grammar codes; "
            "`termprobe profile list` names the profiles"
        )
    if circuit.banks != 2:
        raise UsageError(f"{name}: the circuit must have 2 RAM banks, not {circuit.banks}")
    _refuse_codes(profile)
    _refuse_size(profile)
    return circuit


def _refuse_codes(profile: Profile) -> None:
    if profile.link.data_bits not in (7, 8) or profile.display.printing.last > 0x7F:
        raise UsageError(
            f"{profile.id}: the circuit must have {DATA_LINES} data lines: 7 or 8 data bits, "
            "and no printable code above 7Fh"
        )
    if profile.coordinates is not None and profile.coordinates.coding == "decimal":
        raise UsageError(
            f"{profile.id}: the circuit must have coordinates of one code each, "
            "binary, offset or bcd, not decimal digits"
        )


def _refuse_size(profile: Profile) -> None:
    rows, columns = profile.display.rows, profile.display.columns
    most_rows, most_columns = 1 << ROW_LINES, 1 << COLUMN_LINES
    if rows > most_rows or columns > most_columns:
        raise UsageError(
            f"{profile.id}: the circuit must have at most {most_rows} rows "
            f"and {most_columns} columns, not {rows} and {columns}"
        )


def cell_of(bank: int, row: int, column: int) -> int:
    """Return the number of the cell where a healthy board keeps the physical `row` and `column`."""
    return bank * BANK_CELLS + address_of(row, column)


def address_of(row: int, column: int) -> int:
    """Return what the counters put on the RAM's lines for the physical `row` and `column`."""
    return row >> 1 << COLUMN_LINES | column


def bank_cells(bank: int, shared: Table, own: Table) -> list[int]:
    """Return, for each address that the counters form, the number of the cell that `bank` opens.

    `shared` are the address lines of both banks, behind which stand its `own`.
    """
    cells = range(bank * BANK_CELLS, (bank + 1) * BANK_CELLS)
    opened = itemgetter(*shared)(own)
    return list(itemgetter(*opened)(cells))
