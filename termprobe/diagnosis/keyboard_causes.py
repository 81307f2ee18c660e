"""What each press sends on a keyboard with a fault of its matrix, its keys or its code lines."""

from collections.abc import Iterator, Mapping, Sequence

from termprobe.board.faults.catalogue import keyboard_catalogue
from termprobe.board.keyboard import KeyScan
from termprobe.board.keyboard_board import simulate
from termprobe.board.wiring import KEYBOARD_CODE, KeyWiring, Wiring
from termprobe.diagnosis.fault_names import parsed
from termprobe.diagnosis.key_hypothesis import Hypothesis, Sends, outcome_of, supposed_fault
from termprobe.diagnosis.key_outcomes import Predicted
from termprobe.plan.model import Press
from termprobe.profile.model import Key, Profile

TRIES = {"key-flaky": 2}
"""Kinds of faults whose presses have to be made more than once to see all that may come."""


def faults_of_keyboard(
    profile: Profile, presses: Sequence[Press], healthy: Hypothesis
) -> Iterator[Hypothesis]:
    """Yield the Hypothesis of each fault that a keyboard alone can have.

    Only the presses of keys that a fault touches are simulated; the others are as on the `healthy`
    one. Faults of the code lines share one simulation, for what comes to these lines is the same.
    """
    held = {press.id: _keys_held(profile, press) for press in presses}
    keyboard = simulate(profile)
    codes = {press.id: _came(keyboard, press) for press in presses}
    for fault in keyboard_catalogue(profile).values():
        wiring = Wiring()
        fault.apply(wiring)
        if wiring.keys == KeyWiring():
            yield supposed_fault(fault, _through_code_lines(wiring, presses, codes))
            continue
        asked = _asked(presses, held, wiring.keys, _keys_touched(profile, wiring.keys))
        tries = TRIES.get(parsed(fault.name).kind, 1)
        sent = _sent(simulate(profile, (fault,)), asked, tries)
        yield supposed_fault(fault, {**healthy.sends, **sent})


def _asked(
    presses: Sequence[Press], held: Mapping[str, set[str]], wiring: KeyWiring, keys: set[str]
) -> Sequence[Press]:
    """Return the presses of which something else may come: all where lines are held for all keys.

    Else it is those in which one of `keys` is down.
    """
    if wiring.lines:
        return presses
    return [press for press in presses if not keys.isdisjoint(held[press.id])]


def _through_code_lines(
    wiring: Wiring, presses: Sequence[Press], codes: Mapping[str, bytes]
) -> Sends:
    """Return press id -> what becomes of its codes on the code lines; an eighth bit goes past."""
    seven = bytes(wiring.buses[KEYBOARD_CODE.where])
    leaving = seven + bytes(code | 0x80 for code in seven)
    return {press.id: (outcome_of(press, codes[press.id].translate(leaving)),) for press in presses}


def _keys_of(profile: Profile) -> Sequence[Key]:
    if profile.keyboard is None:
        return ()
    return profile.keyboard.keys


def _keys_held(profile: Profile, press: Press) -> set[str]:
    """Return the names of all keys that may be down in `press`."""
    modifiers = {str(key.name) for key in _keys_of(profile) if key.role in press.modifiers}
    return {press.key, *press.held, *modifiers}


def _keys_touched(profile: Profile, keys: KeyWiring) -> set[str]:
    """Return the names of the keys without which what is wrong with `keys` changes nothing.

    They are those whose contacts, lines of the matrix or diodes it touches.
    """
    contacts = keys.dead | keys.bouncing | keys.flaky | keys.exchanged.keys()
    return contacts | {str(key.name) for key in _keys_of(profile) if _is_touched(key, keys)}


def _is_touched(key: Key, wiring: KeyWiring) -> bool:
    """Tell whether a line or the diode of `key` is not as on a healthy keyboard."""
    if not key.matrix:
        return False
    row, column = key.matrix
    is_shorted = (row, column) in wiring.shorted_diodes
    return is_shorted or wiring.rows.touches(row) or wiring.columns.touches(column)


def _sent(keyboard: KeyScan, presses: Sequence[Press], tries: int) -> Sends:
    """Return press id -> the different outcomes of so many tries."""
    return {press.id: _outcomes(keyboard, press, tries) for press in presses}


def _outcomes(keyboard: KeyScan, press: Press, tries: int) -> Predicted:
    outcomes = [outcome_of(press, _came(keyboard, press)) for _ in range(tries)]
    return tuple(dict.fromkeys(outcomes))


def _came(keyboard: KeyScan, press: Press) -> bytes:
    if press.held:
        events = keyboard.chord([*press.held, press.key])
    else:
        events = keyboard.press(press.key, frozenset(press.modifiers))
    return b"".join(data for _, data in events)
