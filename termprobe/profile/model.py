"""What one kind of terminal must do, as frozen records.

Each is read from YAML field by field (termprobe/yamlfile.py). Rows and columns count from 0, rows
first. `source` names where an expectation comes from, or is the word `unverified`. A Text is a name
that must be new, or is one of those given elsewhere.
"""

from dataclasses import dataclass, field
from typing import Literal

from termprobe.yamlvalues import ByteText, Mapped, Template, Text

UNVERIFIED = "unverified"


@dataclass(frozen=True)
class Printing(Mapped):
    """What a printable code does: it is stored at the cursor, then the cursor advances."""

    first: int
    """Lowest printable code."""
    last: int
    """Highest printable code."""
    last_column: Literal["next-row", "pending", "overwrite"]
    """After storing in the last column: go to the next row at once; only when the next code comes;
    or stay there."""
    last_row: Literal["scroll", "wrap", "stay"]
    """Where a next row is needed below the last: scroll, go on in the top row, or stay in the last
    row."""
    source: str


@dataclass(frozen=True)
class Dots(Mapped):
    """How characters are made of dots: a drawing of each, in a box with a gap around it."""

    characters: Text
    """Id of a character set, one of profiles/characters."""
    columns: int
    """Of the box: dots from one character to the next."""
    lines: int
    """Of the box: scan lines from one row of characters to the next."""
    source: str


@dataclass(frozen=True)
class Graphics(Mapped):
    """The characters that the graphics set shows for some codes."""

    first: int
    """Its lowest code."""
    shows: Text
    """What it shows for that code and those behind it, one character each."""
    source: str


@dataclass(frozen=True)
class Display(Mapped):
    """The screen."""

    rows: int
    columns: int
    printing: Printing
    tab_stops: int = 0
    """Distance of the tab stops at power-up; 0 where there are none."""
    power_up: Literal["random", "blank"] = "random"
    """What the screen shows after switching on, before anything is received."""
    dots: Dots | None = None
    """None where nothing is known of them."""
    graphics: Graphics | None = None
    """None where there is no graphics set."""


@dataclass(frozen=True)
class Coordinates(Mapped):
    """How `row` and `column` travel in a command."""

    coding: Literal["binary", "offset", "decimal", "bcd"]
    """One byte; one byte plus `offset`; decimal digits; one byte of two binary coded decimal
    digits."""
    offset: int = 0
    """Added to the coordinate by coding `offset`, for example 20h."""
    first: int = 0
    """What the first row and column are called: 0 or 1."""
    source: str = UNVERIFIED


@dataclass(frozen=True)
class Fill(Mapped):
    """Characters to send after a command while the board is busy, instead of a pause."""

    code: ByteText
    count: int
    from_baud: int
    """The lowest speed that needs them (terminfo's `pb`)."""


@dataclass(frozen=True)
class Command(Mapped):
    """One thing that the board does when it receives certain bytes."""

    name: Text
    bytes: Template
    """The coding; slots are `row`, `column`, `count`."""
    action: Text
    """A word of termprobe/profile/vocabulary.py."""
    source: str
    edge: Text | None = None
    """What happens at the edge of the screen; one of the alternatives that the action allows."""
    also: tuple[Template, ...] = ()
    """Other codings of the same command."""
    settle_ms: float = 0.0
    """The board is busy for this long afterwards."""
    fill: Fill | None = None
    reply: Template | None = None
    """What comes back; slots are `row` and `column` of the cursor, or `parameters`, which only the
    board knows, or `text`, which its owner gave it: the reply is then judged by its form. `line`
    and `line-to-cursor` stand for the codes of the cursor's row, `screen` and `screen-to-cursor`
    for those of all rows."""
    row_end: ByteText = ByteText(b"\r")
    """What is sent between two rows of a screen."""
    sends_blanks: bool = True
    """Whether the blanks at the end of a row are sent; where the row is sent up to the cursor they
    always are."""


@dataclass(frozen=True)
class Option(Mapped):
    """A switch or strap on the board."""

    name: Text
    positions: tuple[str, ...]
    normal: Text
    """The position in which the rest of the profile holds."""
    meaning: str
    source: str = UNVERIFIED
    variants: dict[Text, Text] = field(default_factory=dict)
    """Position: the national variant of ISO 646 that is shown in it, by its id in
    profiles/variants. In a position that is not named ASCII is shown."""
    rows: dict[Text, int] = field(default_factory=dict)
    """Position: how many rows are lit in it, all of the display's or half of them. Half of them
    are every second one, the first included; the others are dark, nothing that comes touches what
    is kept for them, and rows are counted as if there were none between."""


@dataclass(frozen=True)
class LinkNeeds(Mapped):
    """The serial line as the board wants it."""

    speed_baud: int
    """The usual speed."""
    speeds_baud: tuple[int, ...]
    """All that it can do."""
    data_bits: int
    parity: Literal["none", "even", "odd", "mark", "space"]
    stop_bits: int
    handshake: Literal["none", "xon-xoff", "rts-cts"] = "none"
    character_gap_ms: float = 0.0
    """Pause that the board needs between characters."""
    rts: bool = True
    dtr: bool = True
    source: str = UNVERIFIED


@dataclass(frozen=True)
class Key(Mapped):
    """One key.

    A code left out is formed by the keyboard's rules from `code`; `none` sends nothing.
    """

    name: Text
    legend: str
    """What the keycap shows, the shifted character last: `1 !`."""
    row: float
    """Position on the real keyboard, in key heights from the top."""
    offset: float
    """Position on the real keyboard, in key widths from the left."""
    width: float = 1.0
    matrix: tuple[int, ...] = ()
    """Row and column in the key matrix; empty for a key outside it, such as SHIFT."""
    role: Literal["code", "shift", "control", "lock", "repeat", "break", "local"] = "code"
    code: ByteText | None = None
    """Sent with no modifier; may be several bytes."""
    shift: ByteText | Literal["none"] | None = None
    control: ByteText | Literal["none"] | None = None
    shift_control: ByteText | Literal["none"] | None = None
    repeats: bool = True
    """Goes on sending while it is held down (with the repeat key, where the keyboard has one)."""
    source: str = ""
    """Only where it differs from the keyboard's."""


@dataclass(frozen=True)
class Keyboard(Mapped):
    """The keys, the rules that form their codes, and the matrix that they close."""

    pairing: Literal["bit", "typewriter", "none"]
    """How SHIFT forms a code: flips one bit; as the office typewriter; not at all (every shifted
    code is written out)."""
    control: Literal["and-1Fh", "xor-40h"]
    """How CONTROL forms a code: bits 5 and 6 forced low; bit 6 inverted."""
    letters: Literal["both-cases", "upper-only"]
    repeat: Literal["key", "automatic", "none"]
    """A held key repeats while the REPEAT key is down; by itself; never."""
    rows: int
    columns: int
    """Size of the matrix."""
    diodes: bool
    """Each key has a diode, so no three keys make a fourth."""
    keys: tuple[Key, ...]
    source: str
    lock: Literal["capitals", "shift"] = "capitals"
    """What the locking key does: letters become capitals; every key sends its shifted code."""

    def key(self, name: str) -> Key | None:
        """Return the key called `name`, or None where the keyboard has none."""
        return next((key for key in self.keys if key.name == name), None)


@dataclass(frozen=True)
class Circuit(Mapped):
    """How a board without a processor does it: what the simulated board is built from."""

    source: str
    banks: int = 2
    echo_option: str = ""
    """The option that makes the board show its own keys (half duplex); empty where there is
    none."""
    echo_position: str = ""
    """The position of that option in which it does."""
    local_option: str = ""
    """The option that parts keyboard and screen from the line; empty where there is none."""
    local_position: str = ""
    """The position of that option in which it does: keys go to the screen alone."""
    labels: dict[Text, tuple[str, ...]] = field(default_factory=dict)
    """For a bus (`bank-0-data`) the chip and pin of each line, line 0 first."""


@dataclass(frozen=True)
class Profile(Mapped):
    """All that is known of one kind of terminal."""

    id: Text
    title: str
    display: Display
    link: LinkNeeds
    grammar: Literal["codes", "ecma48"]
    """`codes`: fixed bytes and lead-ins with coordinates. `ecma48`: control sequences with
    parameters as well."""
    fresh: tuple[Text, ...]
    """Commands that bring the screen into a known state: blank, cursor home, no rendition."""
    commands: tuple[Command, ...]
    coordinates: Coordinates | None = None
    options: tuple[Option, ...] = ()
    keyboard: Keyboard | None = None
    circuit: Circuit | None = None

    def command(self, name: str) -> Command | None:
        """Return the command called `name`, or None where the terminal has none."""
        return next((command for command in self.commands if command.name == name), None)
