"""What to probe for faults of keys, of the parity bit and of the local switch, and at the host."""

from typing import NamedTuple

from termprobe.diagnosis.fault_names import FaultName, parsed
from termprobe.diagnosis.probing import BRIDGES, JOINTS, LAYOUT, Probing
from termprobe.profile.model import Profile

HELD = "while key {} is held down"
OTHER_KEYS = "while keys of it are held down one after the other"
CONTACT = (
    "the contact of that key: clean it, and press it from the side; keys fail far more often than "
    "what reads them"
)
CROSSED = "the wires of these two keys, and their caps: exchanged caps look just the same"
DIODE = "the diode of that key: with the board off it must conduct one way only"
HOST = "the settings of the host's port, before anything on the board: they cost nothing to change"


class _Way(NamedTuple):
    signal: str
    meanwhile: str
    expect: str
    look_first_at: str


_SWITCH = "it must change its level with the key; {}, it never does"
_KEY = "it must change its level at once, and once; with a bad contact it does not, or many times"
_OF_MATRIX = {
    "key-dead": _Way("the contact of key {}", HELD, _KEY, CONTACT),
    "key-bounces": _Way("the contact of key {}", HELD, _KEY, CONTACT),
    "key-flaky": _Way("the contact of key {}", HELD, _KEY, CONTACT),
    "keys-swapped": _Way(
        "the contacts of keys {}",
        HELD,
        "each must close the crossing of its own row and column",
        CROSSED,
    ),
    "diode-shorted": _Way(
        "the diode of key {}", HELD, "it must let the scan through one way only", DIODE
    ),
    "row-open": _Way(
        "row {} of the key matrix", OTHER_KEYS, "the scan must arrive at both its ends", JOINTS
    ),
    "column-open": _Way(
        "column {} of the key matrix", OTHER_KEYS, "the scan must arrive at both its ends", JOINTS
    ),
    "rows-bridged": _Way(
        "rows {} of the key matrix", OTHER_KEYS, "they must not be alike at every moment", BRIDGES
    ),
    "columns-bridged": _Way(
        "columns {} of the key matrix",
        OTHER_KEYS,
        "they must not be alike at every moment",
        BRIDGES,
    ),
    "rows-swapped": _Way(
        "rows {} of the key matrix",
        OTHER_KEYS,
        "each must arrive at the pin of its own number",
        LAYOUT,
    ),
    "columns-swapped": _Way(
        "columns {} of the key matrix",
        OTHER_KEYS,
        "each must arrive at the pin of its own number",
        LAYOUT,
    ),
    "shift-dead": _Way("the line from SHIFT", HELD, _SWITCH.format("dead"), CONTACT),
    "shift-stuck": _Way("the line from SHIFT", HELD, _SWITCH.format("stuck"), JOINTS),
    "control-dead": _Way("the line from CONTROL", HELD, _SWITCH.format("dead"), CONTACT),
    "control-stuck": _Way("the line from CONTROL", HELD, _SWITCH.format("stuck"), JOINTS),
}
_PARITY = _Way(
    "the parity input of the transmitter",
    "while a key is held down",
    "it must stand as the strap says, for parity and for odd or even",
    "the straps for parity: they are set wrongly more often than a UART is bad",
)
_ECHO = _Way(
    "the gate that lets keys through to the screen",
    "while a key is held down",
    "it must be open where the switch stands at full duplex, and closed at half",
    "the switch and its wires, then the gate: switches fail first",
)
_HOST = _Way("", "", "", HOST)
_SILENT = _Way(
    "the transmit line at the connector",
    "while a key is held down",
    "it must rest at a negative voltage and swing; without a swing, follow it back to the UART",
    "the cable, and the line and local switch: most lines that say nothing end there",
)
_PROFILE = _Way("", "", "", "the profile: it may not be that of this keyboard, whose codes differ")


def key_probe_of(name: str, profile: Profile) -> Probing | None:
    """Return what to probe for a cause of what keys send; None for any other."""
    parts = parsed(name)
    way = _way_of(parts)
    if way is None:
        return None
    keys = _keys(parts)
    return Probing(
        way.signal.format(keys), way.expect, way.look_first_at, meanwhile=way.meanwhile.format(keys)
    )


def _way_of(parts: FaultName) -> _Way | None:
    match parts.where:
        case "key-matrix":
            return _OF_MATRIX.get(parts.kind)
        case "parity":
            return _PARITY
        case "echo-gate":
            return _ECHO
        case "host":
            return _SILENT if parts.kind == "silent" else _HOST
        case "profile":
            return _PROFILE
    return None


def _keys(parts: FaultName) -> str:
    """Return the keys or lines of a fault as they are spoken of."""
    if parts.lines:
        return " and ".join(parts.lines.split("-"))
    return parts.kind.partition("-")[0].upper()
