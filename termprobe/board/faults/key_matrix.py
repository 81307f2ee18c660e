"""Faults of the key matrix and of single keys, and a keyboard with faults on its own, without a board around it."""

from functools import partial
from itertools import combinations

from termprobe.board.faults.bus import faults_of_bus
from termprobe.board.faults.model import make
from termprobe.board.keyboard import KeyScan
from termprobe.board.wiring import BUSES, Wiring
from termprobe.errors import UsageError
from termprobe.findings import nearest
from termprobe.notation import visible

WHERE = "key-matrix"
BUS = "keyboard-code"
MODIFIER_LINES = ("shift", "control")
KEY_KINDS = {
    "key-dead": ("dead", "the key {} makes no contact"),
    "key-bounces": ("bouncing", "the key {} makes contact twice at each press"),
    "key-flaky": ("flaky", "the key {} makes contact at every second press only"),
}
"""For each fault of a single key: the field of KeyWiring, and its title."""


def key_faults(profile):
    """Yield the faults of the keyboard of `profile`; of exchanged keys those that are neighbours. None without a keyboard."""
    keyboard = profile.keyboard
    if keyboard is None:
        return
    yield from _line_faults("row", keyboard.rows)
    yield from _line_faults("column", keyboard.columns)
    for key in keyboard.keys:
        for kind in (
            KEY_KINDS if key.role == "code" else ("key-dead",) if key.role == "break" else ()
        ):
            yield _of_key(kind, str(key.name))
    for first, second in neighbours(keyboard):
        yield _swap(first, second)
    for line in MODIFIER_LINES:
        for kind, level in (("dead", False), ("stuck", True)):
            yield make(
                f"{WHERE}/{line}-{kind}",
                f"the line of {line.upper()} is {'always' if level else 'never'} active",
                partial(_hold, line, level),
            )
    for key in keyboard.keys if keyboard.diodes else ():
        if key.matrix:
            row, column = key.matrix
            yield make(
                f"{WHERE}/diode-shorted/{row}-{column}",
                f"the diode of the key {key.name} (row {row}, column {column}) conducts both ways",
                partial(_add, "shorted_diodes", (row, column)),
            )


def _line_faults(kind, count):
    for line in range(count):
        yield make(
            f"{WHERE}/{kind}-open/{line}",
            f"{kind} {line} of the key matrix has no connection",
            partial(_add, f"open_{kind}s", line),
        )
    for first, second in combinations(range(count), 2):
        yield make(
            f"{WHERE}/{kind}s-bridged/{first}-{second}",
            f"{kind}s {first} and {second} of the key matrix touch",
            partial(_add, f"{kind}_bridges", (first, second)),
        )
        yield make(
            f"{WHERE}/{kind}s-swapped/{first}-{second}",
            f"{kind}s {first} and {second} of the key matrix are exchanged",
            partial(_exchange, f"{kind}_order", first, second),
        )


def _of_key(kind, name):
    where, title = KEY_KINDS[kind]
    return make(f"{WHERE}/{kind}/{name}", title.format(visible(name)), partial(_add, where, name))


def _swap(first, second):
    return make(
        f"{WHERE}/keys-swapped/{first}-{second}",
        f"the keys {visible(first)} and {visible(second)} are exchanged",
        partial(_exchange, "exchanged", first, second),
    )


def neighbours(keyboard):
    """Return the pairs of names of code keys that lie side by side, the left one first, in the order of the keys."""
    keys = [key for key in keyboard.keys if key.role == "code"]
    pairs = []
    for key in keys:
        right = min(
            (other for other in keys if other.row == key.row and other.offset > key.offset),
            key=lambda other: other.offset,
            default=None,
        )
        if right is not None and right.offset - (key.offset + key.width) < 1:
            pairs.append((str(key.name), str(right.name)))
    return tuple(pairs)


def key_fault(profile, name):
    """Return the fault `key-matrix/keys-swapped/A-B` of any two code keys; raise UsageError where there are no such keys.

    Names may hold hyphens themselves. The fault returned names the key first that stands first in the profile.
    """
    names = [
        str(key.name)
        for key in (profile.keyboard.keys if profile.keyboard else ())
        if key.role == "code"
    ]
    start = f"{WHERE}/keys-swapped/"
    pair = name.removeprefix(start) if name.startswith(start) else ""
    for place in (place for place, character in enumerate(pair) if character == "-"):
        first, second = pair[:place], pair[place + 1 :]
        if first != second and first in names and second in names:
            return _swap(*sorted((first, second), key=names.index))
    listed = [fault.name for fault in key_faults(profile)]
    raise UsageError(
        f"a fault of the keyboard must be one that is listed, or {start}A-B with the names of two keys that send "
        f'codes, not "{visible(name)}"{nearest(name, listed)}'
    )


def _add(field, what, wiring):
    getattr(wiring.keys, field).add(what)


def _hold(line, level, wiring):
    wiring.keys.lines[line] = level


def _exchange(field, first, second, wiring):
    """Exchange whatever contacts two keys close, or what two lines are connected to, so far."""
    exchanged = getattr(wiring.keys, field)
    exchanged[first], exchanged[second] = exchanged.get(second, second), exchanged.get(first, first)


def keyboard_catalogue(profile):
    """Return fault name -> Fault for all that a keyboard alone can have: its matrix and its code lines. Empty without one.

    Works for every profile with a keyboard, whether a whole board of it can be simulated or not.
    """
    if profile.keyboard is None:
        return {}
    return {fault.name: fault for fault in (*key_faults(profile), *faults_of_bus(BUS, profile))}


def healthy_wiring():
    """Return the Wiring of a keyboard without a board around it."""
    return Wiring({BUS: list(range(1 << BUSES[BUS]))}, {})


def simulate(profile, faults=()):
    """Return the KeyScan of `profile` with the faults named, or given as Fault records; raise UsageError.

    Its .press(key, modifiers) and .chord(keys) return tuples of (delay in seconds, bytes); b"" is a break condition.
    """
    if profile.keyboard is None:
        raise UsageError(
            f"{profile.id}: keys can be simulated only where the profile has a keyboard"
        )
    wiring, listed = healthy_wiring(), None
    for fault in faults:
        if isinstance(fault, str):
            listed = listed or keyboard_catalogue(profile)
            fault = listed.get(fault) or key_fault(profile, fault)
        fault.apply(wiring)
    return KeyScan(profile.keyboard, wiring)
