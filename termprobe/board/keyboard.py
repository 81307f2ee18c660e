"""The scan of a keyboard: newly closed crossings send their keys' codes."""

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from termprobe.board.base import BREAK, NO_MODIFIERS, Emitted
from termprobe.board.encoder import encode
from termprobe.board.matrix import Bridges, Crossing, closed
from termprobe.board.wiring import KEYBOARD_CODE, Wiring
from termprobe.profile.model import Key, Keyboard

STEP_S = 0.0001
"""The scan looks at one crossing for so long."""
CHORD_STEP_S = 0.05
"""From one key of a chord to the next."""
CONTACT_BOUNCE_S = 0.008
"""After so long the second contact of a key that bounces: the encoder's debouncing, 5 ms in common
practice, is over then. Measured switches bounce for some 2 ms, and for 6 at most; from memory.
"""
REPEAT_AFTER_S, REPEAT_EVERY_S = 0.5, 1 / 15
"""A held key repeats from here on, and so often; common practice."""
MODIFIERS = ("shift", "control", "lock", "repeat")

Input = Crossing | str
"""Where the scan meets a key: its crossing, or its name where it has an input of its own."""


class KeyScan:
    """The keyboard of a board: hands in, what is Emitted out.

    Every crossing that closes sends its code once, as long as keys are held; a crossing without a
    key sends nothing. A key outside the matrix has a contact and an input of its own. A modifier
    that no key of the keyboard has is taken as held.
    """

    def __init__(self, keyboard: Keyboard, wiring: Wiring) -> None:
        """`wiring` is read at every press."""
        self._keyboard, self._wiring = keyboard, wiring
        self._key = {str(key.name): key for key in keyboard.keys}
        self._at = {_input_of(key): key for key in keyboard.keys}
        self._modifier = {str(key.role): name for name, key in reversed(self._key.items())}
        self._presses: Counter[str] = Counter()

    def press(
        self, key_name: str, modifiers: Iterable[str] = NO_MODIFIERS, hold_s: float = 0.0
    ) -> tuple[Emitted, ...]:
        """Return what comes of one press, released after `hold_s`.

        `modifiers` are words of MODIFIERS. Raise KeyError where there is no such key.
        """
        key = self._key[key_name]
        held, lines = self._modified(modifiers)
        before = self._sensed(held)
        if self._makes_contact(key_name):
            held.append(key_name)
        sensed = self._sensed(held)
        sent = self._sent(sensed, sensed - before, lines)
        if key_name in self._wiring.keys.bouncing:
            sent += _later(sent, CONTACT_BOUNCE_S)
        elif hold_s and self._repeats(key, self._lines(sensed, lines)):
            sent += self._repeated(sent, hold_s)
        return tuple(sent)

    def chord(self, key_names: Sequence[str]) -> tuple[Emitted, ...]:
        """Return what comes of keys pressed one after another and held until all are down.

        Raise KeyError where there is no such key.
        """
        held: list[str] = []
        sensed: set[Input] = set()
        sent: list[Emitted] = []
        for number, name in enumerate(key_names):
            if self._makes_contact(name):
                held.append(name)
            before, sensed = sensed, self._sensed(held)
            sent += _later(self._sent(sensed, sensed - before, set()), number * CHORD_STEP_S)
        return tuple(sent)

    def _makes_contact(self, name: str) -> bool:
        """Count one press of the key; tell whether it makes contact."""
        self._presses[name] += 1
        if name in self._wiring.keys.flaky and self._presses[name] % 2 == 0:
            return False
        return name not in self._wiring.keys.dead

    def _modified(self, modifiers: Iterable[str]) -> tuple[list[str], set[str]]:
        """Return (names of the modifier keys to be held, modifiers that no key has)."""
        held: list[str] = []
        keyless: set[str] = set()
        for role in modifiers:
            if role in self._modifier:
                held.append(self._modifier[role])
            else:
                keyless.add(role)
        return held, keyless

    def _sensed(self, names: list[str]) -> set[Input]:
        """Return where the scan finds keys closed while the keys `names` make contact."""
        if not names:
            return set()
        crossings: set[Crossing] = set()
        sensed: set[Input] = set()
        for name in names:
            contact = _input_of(self._key[self._wiring.keys.exchanged.get(name, name)])
            if isinstance(contact, str):
                sensed.add(contact)
            else:
                crossings.add(contact)
        sensed |= self._scanned(crossings)
        return {found for found in sensed if found in self._at}

    def _scanned(self, crossings: set[Crossing]) -> set[Crossing]:
        """Return the crossings that the scan finds closed, as its own lines number them."""
        keys = self._wiring.keys
        rows, columns = keys.rows, keys.columns
        bridges = Bridges(
            tuple(rows.bridges), tuple(columns.bridges), frozenset(keys.shorted_diodes)
        )
        return {
            (rows.exchanged.get(row, row), columns.exchanged.get(column, column))
            for row, column in closed(crossings, self._keyboard.diodes, bridges)
            if row not in rows.open and column not in columns.open
        }

    def _lines(self, sensed: set[Input], lines: set[str]) -> set[str]:
        """Return the modifier lines that are active."""
        active = lines | {self._at[found].role for found in sensed}
        fixed = self._wiring.keys.lines
        return {line for line in MODIFIERS if fixed.get(line, line in active)}

    def _sent(self, sensed: set[Input], new: set[Input], lines: set[str]) -> list[Emitted]:
        """Return what the newly closed inputs send, in the order of the scan."""
        active, sent = self._lines(sensed, lines), []
        for found in sorted(new, key=self._moment_s):
            data = self._code(self._at[found], active)
            if data is not None:
                sent.append(Emitted(self._moment_s(found), data))
        if not sent:
            return []
        return _later(sent, -sent[0].delay_s)

    def _moment_s(self, found: Input) -> float:
        """Return when in its round the scan comes there.

        It goes column by column, inputs of single keys first.
        """
        if isinstance(found, str):
            return 0.0
        row, column = found
        return (1 + column * self._keyboard.rows + row) * STEP_S

    def _code(self, key: Key, lines: set[str]) -> bytes | None:
        """Return the bytes that leave the keyboard for `key`, or None."""
        if key.role == "break":
            return BREAK
        if key.role != "code":
            return None
        code = encode(self._keyboard, key, "shift" in lines, "control" in lines, "lock" in lines)
        return bytes(self._through_bus(line) for line in code) or None

    def _through_bus(self, code: int) -> int:
        """Return a byte as it leaves the seven code lines; an eighth bit goes past them."""
        return self._wiring.buses[KEYBOARD_CODE.where][code & 0x7F] | code & 0x80

    def _repeats(self, key: Key, lines: set[str]) -> bool:
        """Tell whether `key` repeats while it is held."""
        if self._keyboard.repeat == "key":
            return key.repeats and "repeat" in lines
        return key.repeats and self._keyboard.repeat == "automatic"

    def _repeated(self, sent: list[Emitted], hold_s: float) -> Iterator[Emitted]:
        """Yield the codes that a held key adds."""
        first_s = REPEAT_EVERY_S
        if self._keyboard.repeat == "automatic":
            first_s = REPEAT_AFTER_S
        codes = [one for one in sent if one.data != BREAK]
        for number in range(math.ceil((hold_s - first_s) / REPEAT_EVERY_S)):
            yield from _later(codes, first_s + number * REPEAT_EVERY_S)


def _later(sent: list[Emitted], by_s: float) -> list[Emitted]:
    return [Emitted(one.delay_s + by_s, one.data) for one in sent]


def _input_of(key: Key) -> Input:
    if not key.matrix:
        return str(key.name)
    row, column = key.matrix
    return row, column
