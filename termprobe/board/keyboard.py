"""The key matrix and its scan: contacts that are held close crossings, newly closed crossings send their keys' codes."""

import math
from typing import NamedTuple

from termprobe.board.encoder import encode

BREAK = b""
"""Stands among what a keyboard sends for a break condition, which has no code."""
STEP_S = 0.0001
"""The scan looks at one crossing for so long."""
CHORD_STEP_S = 0.05
"""From one key of a chord to the next."""
BOUNCE_S = 0.008
"""After so long the second contact of a key that bounces; the debouncing of the encoder is over by then."""
REPEAT_AFTER_S, REPEAT_EVERY_S = 0.5, 1 / 15
"""A held key repeats from here on, and so often; common practice."""
MODIFIERS = ("shift", "control", "lock", "repeat")


class Bridges(NamedTuple):
    """What joins the lines of a matrix beyond its keys."""

    rows: tuple = ()
    """Pairs of rows that touch."""
    columns: tuple = ()
    """Pairs of columns that touch."""
    shorted: frozenset = frozenset()
    """Crossings whose diode conducts both ways; of no effect where there are no diodes."""


def closed(held, diodes, bridges=Bridges()):
    """Return the crossings (row, column) that a scan finds closed while the contacts at the crossings `held` are.

    The scan drives one column and sees each row that has a path to it. A contact conducts both ways, with a diode from row
    to column only; lines that touch conduct both ways.
    """
    if len(held) < 2 and not bridges.rows and not bridges.columns:
        return set(held)  # one contact joins one row and one column, and no more
    conducts = {}
    for row, column in held:
        _join(
            conducts,
            ("row", row),
            ("column", column),
            not diodes or (row, column) in bridges.shorted,
        )
    for kind, pairs in (("row", bridges.rows), ("column", bridges.columns)):
        for first, second in pairs:
            _join(conducts, (kind, first), (kind, second), True)
    rows = {line for line in conducts if line[0] == "row"}
    return {
        (row[1], line[1]) for row in rows for line in _reached(conducts, row) if line[0] == "column"
    }


def _join(conducts, first, second, both_ways):
    conducts.setdefault(first, set()).add(second)
    conducts.setdefault(second, set()).update({first} if both_ways else ())


def _reached(conducts, start):
    reached, ahead = {start}, [start]
    while ahead:
        new = conducts[ahead.pop()] - reached
        reached |= new
        ahead += new
    return reached


class KeyScan:
    """The keyboard of a board: hands in, (seconds after the press, bytes) out. `wiring` is a Wiring, read at every press.

    Every crossing that closes sends its code once, as long as keys are held; a crossing without a key sends nothing. A key
    outside the matrix has a contact and an input of its own. A modifier that no key of the keyboard has is taken as held.
    """

    def __init__(self, keyboard, wiring):
        self._keyboard, self._wiring = keyboard, wiring
        self._key = {str(key.name): key for key in keyboard.keys}
        self._at = {_place(key): key for key in keyboard.keys}
        self._modifier = {str(key.role): name for name, key in reversed(self._key.items())}
        self._presses = {}

    def press(self, key_name, modifiers=frozenset(), hold_s=0.0):
        """Return what comes of one press, released after `hold_s`: tuple of (delay in seconds, bytes), BREAK for a break.

        `modifiers` are words of MODIFIERS. Raise KeyError where there is no such key.
        """
        key, wiring = self._key[key_name], self._wiring.keys
        held, lines = self._modified(modifiers)
        before = self._sensed(held)
        sensed = self._sensed([*held, key_name] if self._makes_contact(key_name) else held)
        events = self._sent(sensed, sensed - before, lines)
        bounced = [
            (delay_s + BOUNCE_S, data) for delay_s, data in events if key_name in wiring.bouncing
        ]
        again = (
            []
            if bounced or not hold_s
            else self._repeats(key, self._lines(sensed, lines), events, hold_s)
        )
        return (*events, *bounced, *again)

    def chord(self, key_names, modifiers=frozenset()):
        """Return what comes of keys pressed one after another and held until all are down, as press. Raise KeyError."""
        held, lines = self._modified(modifiers)
        sensed, events = self._sensed(held), []
        for number, name in enumerate(key_names):
            held = [*held, name] if self._makes_contact(self._key[name] and name) else held
            before, sensed = sensed, self._sensed(held)
            events += [
                (number * CHORD_STEP_S + delay_s, data)
                for delay_s, data in self._sent(sensed, sensed - before, lines)
            ]
        return tuple(events)

    def _makes_contact(self, name):
        """Count one press of the key; tell whether it makes contact."""
        self._presses[name] = self._presses.get(name, 0) + 1
        works = self._presses[name] % 2 or name not in self._wiring.keys.flaky
        return bool(works) and name not in self._wiring.keys.dead

    def _modified(self, modifiers):
        """Return (names of the modifier keys to be held, modifiers that no key has)."""
        keys = {role: self._modifier.get(role) for role in modifiers}
        return [name for name in keys.values() if name], {
            role for role, name in keys.items() if not name
        }

    def _sensed(self, names):
        """Return the places that the scan finds closed while the keys `names` make contact."""
        if not names:
            return set()
        wiring = self._wiring.keys
        places = {_place(self._key[wiring.exchanged.get(name, name)]) for name in names}
        crossings = {place for place in places if not isinstance(place, str)}
        bridges = Bridges(
            tuple(wiring.row_bridges),
            tuple(wiring.column_bridges),
            frozenset(wiring.shorted_diodes),
        )
        rows, columns = wiring.row_order, wiring.column_order
        seen = {
            (rows.get(row, row), columns.get(column, column))
            for row, column in closed(crossings, self._keyboard.diodes, bridges)
            if row not in wiring.open_rows and column not in wiring.open_columns
        }
        return {place for place in places - crossings | seen if place in self._at}

    def _lines(self, sensed, lines):
        """Return the modifier lines that are active."""
        active = lines | {self._at[place].role for place in sensed}
        fixed = self._wiring.keys.lines
        return {line for line in MODIFIERS if fixed.get(line, line in active)}

    def _sent(self, sensed, new, lines):
        """Return [(delay_s, bytes)] of the newly closed places, in the order of the scan."""
        active, events = self._lines(sensed, lines), []
        for place in sorted(new, key=self._moment):
            data = self._code(self._at[place], active)
            if data is not None:
                events.append((self._moment(place), data))
        start_s = events[0][0] if events else 0.0
        return [(delay_s - start_s, data) for delay_s, data in events]

    def _moment(self, place):
        """Return when in its round the scan comes to `place`: column by column, inputs of single keys first."""
        return (
            0.0
            if isinstance(place, str)
            else (1 + place[1] * self._keyboard.rows + place[0]) * STEP_S
        )

    def _code(self, key, lines):
        """Return the bytes that leave the keyboard for `key`, or None."""
        if key.role == "break":
            return BREAK
        if key.role != "code":
            return None
        code = encode(self._keyboard, key, "shift" in lines, "control" in lines, "lock" in lines)
        return bytes(self._through_bus(line) for line in code) or None

    def _through_bus(self, code):
        """Return a byte as it leaves the seven code lines; an eighth bit goes past them."""
        return self._wiring.buses["keyboard-code"][code & 0x7F] | code & 0x80

    def _repeats(self, key, lines, events, hold_s):
        """Yield the codes that a held key adds."""
        if (
            not key.repeats
            or not {"automatic": True, "key": "repeat" in lines, "none": False}[
                self._keyboard.repeat
            ]
        ):
            return
        first_s = REPEAT_AFTER_S if self._keyboard.repeat == "automatic" else REPEAT_EVERY_S
        for number in range(math.ceil((hold_s - first_s) / REPEAT_EVERY_S)):
            yield from (
                (first_s + number * REPEAT_EVERY_S + delay_s, data)
                for delay_s, data in events
                if data != BREAK
            )


def _place(key):
    """Return where the scan meets `key`: (row, column), or its name where it has an input of its own."""
    return tuple(key.matrix) if key.matrix else str(key.name)
