"""How cables and plugs are wired: for each, which pin goes to which.

Pins and directions: EIA-232 and EIA/TIA-574, as pin-out tables give them. Cables: pin-out tables of
null modems and loopback plugs; those without a source are own ones, for what people solder.
"""

from collections.abc import Iterator
from typing import NamedTuple

AT_COMPUTER, AT_BOARD = "computer", "board"
SIDES = (AT_COMPUTER, AT_BOARD)


class Pin(NamedTuple):
    """One pin of a connector, by its circuit."""

    side: str
    circuit: str
    """txd, rxd, rts, cts, dtr, dsr, dcd or ri, named as a terminal or a computer sees them."""


class PinNumbers(NamedTuple):
    """Where a circuit is on each connector."""

    db25: int
    de9: int


PIN_NUMBERS = {
    "txd": PinNumbers(2, 3),
    "rxd": PinNumbers(3, 2),
    "rts": PinNumbers(4, 7),
    "cts": PinNumbers(5, 8),
    "dsr": PinNumbers(6, 6),
    "dcd": PinNumbers(8, 1),
    "dtr": PinNumbers(20, 4),
    "ri": PinNumbers(22, 9),
}
"""Ground is 7 and 5; it is taken to be joined wherever anything is."""
DRIVEN_BY = {
    "dte": ("txd", "rts", "dtr"),
    "dce": ("rxd", "cts", "dsr", "dcd", "ri"),
}
"""Kind of end: the circuits that it drives; it hears the others.

Terminals and computers are dte.
"""


class CableWiring(NamedTuple):
    """One cable or plug."""

    name: str
    title: str
    joined: tuple[tuple[Pin, Pin], ...]

    def described(self) -> tuple[str, ...]:
        """Return each joint in words: `computer 3 TXD - board 3 RXD`, pins of DE-9 and DB-25."""
        return tuple(f"{_called(first)} - {_called(second)}" for first, second in self.joined)


def _called(pin: Pin) -> str:
    numbers = PIN_NUMBERS[pin.circuit]
    number = numbers.de9 if pin.side == AT_COMPUTER else numbers.db25
    return f"{pin.side} {number} {pin.circuit.upper()}"


def _joints(text: str) -> Iterator[tuple[Pin, Pin]]:
    """Yield the joints that `text` says: `txd-rxd` across, `c:rts-cts` and `b:rts-cts` on a side.

    Across, the computer's pin stands first.
    """
    for word in text.split():
        side, colon, joint = word.rpartition(":")
        first, second = joint.split("-")
        near, far = {"c": (AT_COMPUTER, AT_COMPUTER), "b": (AT_BOARD, AT_BOARD), "": SIDES}[side]
        yield Pin(near, first), Pin(far, second)


_DATA = "txd-rxd rxd-txd"
_LOOPED_COMPUTER = "c:rts-cts c:dtr-dsr c:dtr-dcd"
_LOOPED_BOARD = "b:rts-cts b:dtr-dsr b:dtr-dcd"
_TABLE = (
    (
        "straight",
        "each pin to the same pin",
        "txd-txd rxd-rxd rts-rts cts-cts dtr-dtr dsr-dsr dcd-dcd ri-ri",
    ),
    ("straight-data", "pins 2 and 3 straight, no control lines", "txd-txd rxd-rxd"),
    (
        "crossed",
        "null modem with all handshake lines",
        f"{_DATA} rts-cts cts-rts dtr-dsr dtr-dcd dsr-dtr dcd-dtr",
    ),
    ("crossed-no-dcd", "null modem, DCD left open", f"{_DATA} rts-cts cts-rts dtr-dsr dsr-dtr"),
    ("crossed-no-dtr", "null modem with RTS and CTS alone", f"{_DATA} rts-cts cts-rts"),
    ("three-wire", "data crossed, nothing else", _DATA),
    (
        "three-wire-looped",
        "data crossed, control lines of each side looped back to it",
        f"{_DATA} {_LOOPED_COMPUTER} {_LOOPED_BOARD}",
    ),
    ("rts-cts-at-computer", "data crossed, RTS to CTS at the computer", f"{_DATA} c:rts-cts"),
    ("rts-cts-at-board", "data crossed, RTS to CTS at the board", f"{_DATA} b:rts-cts"),
    ("dtr-busy", "data crossed, the board's DTR to the computer's CTS", f"{_DATA} cts-dtr"),
    ("loopback-plug", "plug on the computer's end", f"c:txd-rxd {_LOOPED_COMPUTER}"),
    ("loopback-board", "plug on the board's end", f"b:txd-rxd {_LOOPED_BOARD}"),
    ("data-joined", "the computer's pins 2 and 3 joined", "c:txd-rxd"),
    ("transmit-only", "to the board alone", "txd-rxd"),
    ("receive-only", "from the board alone", "rxd-txd"),
    ("nothing", "no cable", ""),
)
WIRINGS = {name: CableWiring(name, title, tuple(_joints(joints))) for name, title, joints in _TABLE}
"""All cables and plugs, by name."""


def nets(wiring: CableWiring) -> list[set[Pin]]:
    """Return the groups of pins that are joined, straight or through others."""
    found: list[set[Pin]] = []
    for joint in wiring.joined:
        touched = [net for net in found if net & set(joint)]
        found = [net for net in found if net not in touched]
        found.append(set(joint).union(*touched))
    return found
