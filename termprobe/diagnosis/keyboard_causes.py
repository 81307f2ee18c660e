"""What each press sends on a keyboard with a fault of its matrix, its keys or its code lines."""

from collections.abc import Iterator, Sequence

from termprobe.board.faults.catalogue import keyboard_catalogue
from termprobe.board.faults.model import Fault
from termprobe.board.keyboard import KeyScan
from termprobe.board.keyboard_board import simulate
from termprobe.board.wiring import KeyWiring, Wiring
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
    one.
    """
    held = {press.id: _keys_held(profile, press) for press in presses}
    for fault in keyboard_catalogue(profile).values():
        keys = _keys_touched(profile, fault)
        asked = [press for press in presses if not (keys and keys.isdisjoint(held[press.id]))]
        tries = TRIES.get(parsed(fault.name).kind, 1)
        sent = _sent(simulate(profile, (fault,)), asked, tries)
        yield supposed_fault(fault, {**healthy.sends, **sent})


def _keys_of(profile: Profile) -> Sequence[Key]:
    if profile.keyboard is None:
        return ()
    return profile.keyboard.keys


def _keys_held(profile: Profile, press: Press) -> set[str]:
    """Return the names of all keys that may be down in `press`."""
    modifiers = {str(key.name) for key in _keys_of(profile) if key.role in press.modifiers}
    return {press.key, *press.held, *modifiers}


def _keys_touched(profile: Profile, fault: Fault) -> set[str]:
    """Return the names of the keys without which `fault` changes nothing.

    They are those whose contacts, lines of the matrix or diodes are all that it touches; there are
    none where it is of lines that all keys share.
    """
    wiring = Wiring()
    fault.apply(wiring)
    keys = wiring.keys
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
