"""The wiring of a board as tables: what leaves a bus for each value that enters it. A fault is an edit of these tables.

A healthy bus maps every value to itself. RAM address: column in bits 0 to 6, half the physical row in bits 7 to 10; the
parity of the physical row selects the bank.
"""

from dataclasses import dataclass, field

from termprobe.errors import UsageError

COLUMN_LINES, ROW_LINES, DATA_LINES, ADDRESS_LINES = 7, 5, 7, 11
BANK_CELLS = 1 << ADDRESS_LINES
BUSES = {
    "receiver-data": DATA_LINES,
    "bank-0-data": DATA_LINES,
    "bank-1-data": DATA_LINES,
    "glyph-address": DATA_LINES,
    "transmitter-data": DATA_LINES,
    "keyboard-code": DATA_LINES,
    "ram-address": ADDRESS_LINES,
    "bank-0-address": ADDRESS_LINES,
    "bank-1-address": ADDRESS_LINES,
    "bank-select": 1,
    "row-counter": ROW_LINES,
    "column-counter": COLUMN_LINES,
}
"""Name of each bus: how many lines it has."""


@dataclass
class KeyWiring:
    """The connections of a keyboard, healthy while every field is empty. Keys go by their names."""

    open_rows: set[int] = field(default_factory=set)
    """Row lines that do not reach the scan."""
    open_columns: set[int] = field(default_factory=set)
    """Column lines that the scan does not drive."""
    row_order: dict[int, int] = field(default_factory=dict)
    """For a row line of the matrix the one of the scan that it is connected to, where that is another one."""
    column_order: dict[int, int] = field(default_factory=dict)
    row_bridges: set[tuple[int, int]] = field(default_factory=set)
    column_bridges: set[tuple[int, int]] = field(default_factory=set)
    shorted_diodes: set[tuple[int, int]] = field(default_factory=set)
    """Crossings whose diode conducts both ways."""
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

    buses: dict[str, list[int]]
    """For each bus of BUSES, what comes out for each value put in."""
    decoder: dict[str, str | None]
    """For each command whose coding is recognised, the command that is carried out; None where nothing is."""
    also_written: set[str] = field(default_factory=set)
    """Commands whose last fixed code is stored and advances the cursor, before the command is carried out."""
    missing: set[str] = field(default_factory=set)
    """Names of faults in which a part of a function is missing, such as `margin/no-wrap`; the board asks for them."""
    address_offset: int = 0
    """Added to both coordinates of an address."""
    stuck_bits: dict[int, tuple[int, int]] = field(default_factory=dict)
    """For a RAM cell, bank times BANK_CELLS plus address: (bits that read 1, bits that read 0)."""
    echo_gate: str = ""
    """Empty: as the switch says; `stuck-open`: never shows the board's own keys; `stuck-closed`: always does."""
    handshake_ignored: bool = False
    """The transmitter does not wait for the other side."""
    parity: str = ""
    """Empty: as the profile says; `inverted`; `0` or `1`: the parity bit is sent fixed at that level."""
    speed_ratio: float = 1.0
    """How much faster than it should the line's clock runs."""
    keys: KeyWiring = field(default_factory=KeyWiring)


def wire(profile):
    """Return the healthy Wiring of a board of `profile`; raise UsageError where no circuit for it is known."""
    refuse(profile)
    return Wiring(
        buses={name: list(range(1 << lines)) for name, lines in BUSES.items()},
        decoder={str(command.name): str(command.name) for command in profile.commands},
    )


def refuse(profile):
    """Raise UsageError where a board of `profile` cannot be simulated at circuit level."""
    name, display = profile.id, profile.display
    if profile.circuit is None or profile.grammar != "codes":
        raise UsageError(
            f"{name}: a simulated board needs a profile with a section circuit and grammar codes; "
            "`termprobe profile list` names the profiles"
        )
    if profile.circuit.banks != 2:
        raise UsageError(f"{name}: the circuit must have 2 RAM banks, not {profile.circuit.banks}")
    if profile.link.data_bits not in (7, 8) or display.printing.last > 0x7F:
        raise UsageError(
            f"{name}: the circuit must have {DATA_LINES} data lines: 7 or 8 data bits, "
            "and no printable code above 7Fh"
        )
    if profile.coordinates is not None and profile.coordinates.coding == "decimal":
        raise UsageError(
            f"{name}: the circuit must have coordinates of one code each, binary, offset or bcd, not decimal digits"
        )
    if display.rows > 1 << ROW_LINES or display.columns > 1 << COLUMN_LINES:
        raise UsageError(
            f"{name}: the circuit must have at most {1 << ROW_LINES} rows and {1 << COLUMN_LINES} columns, "
            f"not {display.rows} and {display.columns}"
        )


def cell_of(bank, row, column):
    """Return the number of the RAM cell where a healthy board keeps the physical `row` and `column`."""
    return bank * BANK_CELLS + address_of(row, column)


def address_of(row, column):
    """Return what the counters put on the RAM address lines for the physical `row` and `column`."""
    return row >> 1 << COLUMN_LINES | column


def bank_cells(wiring, bank):
    """Return, for each address that the counters form, the number of the RAM cell that `bank` then opens."""
    own = wiring.buses[f"bank-{bank}-address"]
    return [bank * BANK_CELLS + own[address] for address in wiring.buses["ram-address"]]
