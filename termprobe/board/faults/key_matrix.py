"""Faults of the key matrix and of single keys."""

from collections.abc import Callable, Iterator
from functools import partial
from itertools import combinations
from typing import NamedTuple, TypeVar

from termprobe.board.faults.model import Fault, make
from termprobe.board.matrix import Crossing
from termprobe.board.wiring import KeyWiring, MatrixLines, Wiring
from termprobe.errors import UsageError
from termprobe.findings import nearest
from termprobe.notation import visible
from termprobe.profile.model import Key, Keyboard, Profile

WHERE = "key-matrix"
BLOCKS = (WHERE,)
OF_KEYBOARD = True
Joined = TypeVar("Joined", int, str)
"""The number of a line, or the name of a key."""


class Side(NamedTuple):
    """Rows or columns of the matrix."""

    word: str
    lines_of: Callable[[KeyWiring], MatrixLines]


ROWS = Side("row", lambda keys: keys.rows)
COLUMNS = Side("column", lambda keys: keys.columns)


class Contact(NamedTuple):
    """What can be wrong with the contact of a single key."""

    kind: str
    keys_with_it: Callable[[KeyWiring], set[str]]
    title: str


DEAD = Contact("key-dead", lambda keys: keys.dead, "the key {} makes no contact")
BOUNCES = Contact(
    "key-bounces", lambda keys: keys.bouncing, "the key {} makes contact twice at each press"
)
FLAKY = Contact(
    "key-flaky", lambda keys: keys.flaky, "the key {} makes contact at every second press only"
)
CONTACTS_OF_ROLE = {"code": (DEAD, BOUNCES, FLAKY), "break": (DEAD,)}
"""For each role of a key what can be wrong with its contact; nothing for the others."""


class HeldLine(NamedTuple):
    """What can be wrong with the line of a modifier."""

    kind: str
    level: bool
    word: str


MODIFIER_LINES = ("shift", "control")
HELD_LINES = (HeldLine("dead", False, "never"), HeldLine("stuck", True, "always"))


def faults(profile: Profile) -> Iterator[Fault]:
    """Yield the faults of the keyboard of `profile`; none without one.

    Of exchanged keys there are those that are neighbours.
    """
    keyboard = profile.keyboard
    if keyboard is None:
        return
    yield from _line_faults(ROWS, keyboard.rows)
    yield from _line_faults(COLUMNS, keyboard.columns)
    for key in keyboard.keys:
        for contact in CONTACTS_OF_ROLE.get(key.role, ()):
            yield _contact_fault(contact, str(key.name))
    for first, second in neighbours(keyboard):
        yield _exchanged_keys(first, second)
    for line in MODIFIER_LINES:
        for held in HELD_LINES:
            yield _held_line(line, held)
    if keyboard.diodes:
        for key in keyboard.keys:
            yield from _shorted_diode(key)


def fault_named(profile: Profile, name: str) -> Fault:
    """Return the fault `key-matrix/keys-swapped/A-B` of any two code keys; raise UsageError.

    Names may hold hyphens themselves. The fault names the key first that stands first in the
    profile.
    """
    keys = _code_keys(profile)
    start = f"{WHERE}/keys-swapped/"
    if name.startswith(start):
        for first, second in _split_pair(name.removeprefix(start)):
            if first != second and first in keys and second in keys:
                return _exchanged_keys(*sorted((first, second), key=keys.index))
    listed = [fault.name for fault in faults(profile)]
    raise UsageError(
        f"a fault of the keyboard must be one that is listed, or {start}A-B with the names of two "
        f'keys that send codes, not "{visible(name)}"{nearest(name, listed)}'
    )


def neighbours(keyboard: Keyboard) -> tuple[tuple[str, str], ...]:
    """Return the pairs of names of code keys that lie side by side, the left one first.

    They stand in the order of the keys.
    """
    keys = [key for key in keyboard.keys if key.role == "code"]
    pairs = []
    for key in keys:
        right = [other for other in keys if other.row == key.row and other.offset > key.offset]
        nearest_one = min(right, key=lambda other: other.offset, default=None)
        if nearest_one is not None and nearest_one.offset - (key.offset + key.width) < 1:
            pairs.append((str(key.name), str(nearest_one.name)))
    return tuple(pairs)


def _code_keys(profile: Profile) -> list[str]:
    if profile.keyboard is None:
        return []
    return [str(key.name) for key in profile.keyboard.keys if key.role == "code"]


def _split_pair(text: str) -> Iterator[tuple[str, str]]:
    """Yield what stands before and after each hyphen."""
    for index, character in enumerate(text):
        if character == "-":
            yield text[:index], text[index + 1 :]


def _line_faults(side: Side, count: int) -> Iterator[Fault]:
    word = side.word
    for line in range(count):
        yield make(
            f"{WHERE}/{word}-open/{line}",
            f"{word} {line} of the key matrix is open",
            partial(_open, side, line),
        )
    for first, second in combinations(range(count), 2):
        yield make(
            f"{WHERE}/{word}s-bridged/{first}-{second}",
            f"{word}s {first} and {second} of the key matrix are shorted",
            partial(_bridge, side, first, second),
        )
        yield make(
            f"{WHERE}/{word}s-swapped/{first}-{second}",
            f"{word}s {first} and {second} of the key matrix are swapped",
            partial(_exchange_lines, side, first, second),
        )


def _open(side: Side, line: int, wiring: Wiring) -> None:
    side.lines_of(wiring.keys).open.add(line)


def _bridge(side: Side, first: int, second: int, wiring: Wiring) -> None:
    side.lines_of(wiring.keys).bridges.add((first, second))


def _exchange_lines(side: Side, first: int, second: int, wiring: Wiring) -> None:
    _exchange(side.lines_of(wiring.keys).exchanged, first, second)


def _contact_fault(contact: Contact, name: str) -> Fault:
    title = contact.title.format(visible(name))
    return make(f"{WHERE}/{contact.kind}/{name}", title, partial(_spoil, contact, name))


def _spoil(contact: Contact, name: str, wiring: Wiring) -> None:
    contact.keys_with_it(wiring.keys).add(name)


def _exchanged_keys(first: str, second: str) -> Fault:
    return make(
        f"{WHERE}/keys-swapped/{first}-{second}",
        f"the keys {visible(first)} and {visible(second)} are swapped",
        partial(_exchange_keys, first, second),
    )


def _exchange_keys(first: str, second: str, wiring: Wiring) -> None:
    _exchange(wiring.keys.exchanged, first, second)


def _exchange(joined: dict[Joined, Joined], first: Joined, second: Joined) -> None:
    """Exchange what the two have been joined to so far; each is joined to itself at first."""
    joined[first], joined[second] = joined.get(second, second), joined.get(first, first)


def _held_line(line: str, held: HeldLine) -> Fault:
    return make(
        f"{WHERE}/{line}-{held.kind}",
        f"the line of {line.upper()} is {held.word} active",
        partial(_hold, line, held.level),
    )


def _hold(line: str, level: bool, wiring: Wiring) -> None:
    wiring.keys.lines[line] = level


def _shorted_diode(key: Key) -> Iterator[Fault]:
    if not key.matrix:
        return
    row, column = key.matrix
    yield make(
        f"{WHERE}/diode-shorted/{row}-{column}",
        f"the diode of the key {key.name} (row {row}, column {column}) conducts both ways",
        partial(_short, (row, column)),
    )


def _short(crossing: Crossing, wiring: Wiring) -> None:
    wiring.keys.shorted_diodes.add(crossing)
