"""Rules that prove that a fault between the keys and the line makes no difference.

Each says that a good keyboard would send the same, whatever is pressed, several keys at once and
modifiers included.
"""

from collections.abc import Iterator, Mapping
from itertools import product

from termprobe.board.encoder import encode
from termprobe.board.matrix import Crossing
from termprobe.board.wiring import DATA_LINES, KEYBOARD_CODE, KeyWiring, MatrixLines
from termprobe.diagnosis.proof import Proof, Rewired
from termprobe.profile.model import Keyboard, Profile

KEYS = frozenset({"keys"})
TRANSMITTER = "transmitter-data"
SEVEN_BITS = (1 << DATA_LINES) - 1
ANY_CODES = frozenset(range(SEVEN_BITS + 1))
MODIFIERS_HELD = tuple(product((False, True), repeat=3))
"""SHIFT, CONTROL and LOCK, held or not."""


def _sends_nothing(changed: Rewired) -> bool:
    """Tell whether no key sends a code and no command has a reply."""
    return not _sent_codes(changed.profile)


def _types_nothing(changed: Rewired) -> bool:
    return not _typed_codes(changed.profile)


def _carry_typed_codes(changed: Rewired) -> bool:
    table = changed.faulty.buses[KEYBOARD_CODE.where]
    return all(table[code] == code for code in _typed_codes(changed.profile))


def _carry_sent_codes(changed: Rewired) -> bool:
    table = changed.faulty.buses[TRANSMITTER]
    return all(table[code] == code for code in _sent_codes(changed.profile))


def _sent_codes(profile: Profile) -> frozenset[int]:
    """Return what can go to the transmitter's lines; a reply may hold any code."""
    if any(command.reply for command in profile.commands):
        return ANY_CODES
    return _typed_codes(profile)


def _typed_codes(profile: Profile) -> frozenset[int]:
    """Return what the code lines of the keyboard may carry; any code where no key is known."""
    if profile.keyboard is None:
        return ANY_CODES
    return frozenset(_formed_codes(profile.keyboard))


def _formed_codes(keyboard: Keyboard) -> Iterator[int]:
    for key, held in product(keyboard.keys, MODIFIERS_HELD):
        if key.role == "code":
            for code in encode(keyboard, key, *held):
                yield code & SEVEN_BITS


def _is_without_keys(changed: Rewired) -> bool:
    """Tell whether all that is changed are lines of the matrix at which no key stands."""
    keyboard, keys = changed.profile.keyboard, changed.faulty.keys
    if keyboard is None or keys != _lines_alone(keys):
        return False
    crossings = _crossings(keyboard)
    rows, columns = {row for row, _ in crossings}, {column for _, column in crossings}
    return _is_beside(keys.rows, rows) and _is_beside(keys.columns, columns)


def _lines_alone(keys: KeyWiring) -> KeyWiring:
    return KeyWiring(rows=keys.rows, columns=keys.columns)


def _is_beside(lines: MatrixLines, with_keys: set[int]) -> bool:
    """Tell whether what is wrong with `lines` touches none of those `with_keys`.

    A line that touches one without keys gains no crossing with a key.
    """
    joined = {old for old, new in lines.exchanged.items() if old != new}
    bridged = [pair for pair in lines.bridges if with_keys.issuperset(pair)]
    return not (with_keys & (lines.open | joined) or bridged)


def _crossings(keyboard: Keyboard) -> set[Crossing]:
    return {(key.matrix[0], key.matrix[1]) for key in keyboard.keys if key.matrix}


def _holds_idle_modifiers(changed: Rewired) -> bool:
    """Tell whether all that is changed are modifier lines on which no code depends."""
    keyboard, keys = changed.profile.keyboard, changed.faulty.keys
    if keyboard is None or keys != KeyWiring(lines=keys.lines):
        return False
    return all(_is_idle(keyboard, keys.lines, held) for held in MODIFIERS_HELD)


def _is_idle(keyboard: Keyboard, lines: Mapping[str, bool], held: tuple[bool, ...]) -> bool:
    """Tell whether each key sends with these lines what it sends with the modifiers `held`."""
    shift, control, lock = held
    fixed = lines.get("shift", shift), lines.get("control", control), lock
    codes = [key for key in keyboard.keys if key.role == "code"]
    return all(encode(keyboard, key, *held) == encode(keyboard, key, *fixed) for key in codes)


def _is_no_corner(changed: Rewired) -> bool:
    """Tell whether all that is changed are diodes at no corner of a rectangle of four keys.

    What a shorted diode lets through closes the fourth corner, where the other three are held.
    """
    keyboard, keys = changed.profile.keyboard, changed.faulty.keys
    if keyboard is None or keys != KeyWiring(shorted_diodes=keys.shorted_diodes):
        return False
    crossings = _crossings(keyboard)
    (shorted, *others) = keys.shorted_diodes
    return not others and not any(_are_corners(shorted, other, crossings) for other in crossings)


def _are_corners(first: Crossing, second: Crossing, crossings: set[Crossing]) -> bool:
    """Tell whether keys stand at all corners of the rectangle between the two crossings."""
    row, column = first
    other_row, other_column = second
    if row == other_row or column == other_column:
        return False
    return {(row, other_column), (other_row, column)} <= crossings


NEVER_SENDS = "the terminal never sends anything: no key has a code, and no command a reply"
KEYBOARD_PROOFS = (
    Proof(frozenset({TRANSMITTER, "parity", "handshake_ignored"}), _sends_nothing, NEVER_SENDS),
    Proof(frozenset({"echo_gate"}), _types_nothing, "no key sends a code that could be shown"),
    Proof(
        frozenset({KEYBOARD_CODE.where}),
        _carry_typed_codes,
        "no code that a key can send is changed by it",
    ),
    Proof(
        frozenset({TRANSMITTER}),
        _carry_sent_codes,
        "no code that the terminal can send is changed by it",
    ),
    Proof(KEYS, _is_without_keys, "no key stands at that line of the matrix"),
    Proof(KEYS, _holds_idle_modifiers, "no key sends another code with that modifier"),
    Proof(
        KEYS,
        _is_no_corner,
        "no three other keys make a rectangle with this one, so no chord can show its diode",
    ),
)
