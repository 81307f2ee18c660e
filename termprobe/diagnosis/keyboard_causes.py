"""What each press sends on a keyboard with a fault of its matrix, its keys or its code lines."""

from collections.abc import Iterator, Sequence

from termprobe.board.faults.catalogue import keyboard_catalogue
from termprobe.board.faults.model import Fault
from termprobe.board.keyboard import KeyScan
from termprobe.board.keyboard_board import simulate
from termprobe.board.wiring import (
    DATA_LINES,
    KEYBOARD_CODE,
    KeyWiring,
    MatrixLines,
    Table,
    Wiring,
)
from termprobe.diagnosis.fault_names import parsed
from termprobe.diagnosis.key_hypothesis import Hypothesis, Sends, outcome_of, supposed_fault
from termprobe.diagnosis.key_outcomes import Predicted
from termprobe.plan.model import Press
from termprobe.profile.model import Key, Keyboard, Profile

SEVEN_BITS = (1 << DATA_LINES) - 1
TRIES = {"key-flaky": 2}
"""Kinds of faults whose presses have to be made more than once to see all that may come."""


def faults_of_keyboard(
    profile: Profile, presses: Sequence[Press], healthy: Hypothesis
) -> Iterator[Hypothesis]:
    """Yield the Hypothesis of each fault that a keyboard alone can have.

    Only the presses that a fault can touch are simulated; the others are as on the `healthy` one.
    """
    for fault in keyboard_catalogue(profile).values():
        asked = _presses_touched(fault, profile.keyboard, presses)
        tries = TRIES.get(parsed(fault.name).kind, 1)
        sent = _sent(simulate(profile, (fault,)), asked, tries)
        yield supposed_fault(fault, {**healthy.sends, **sent})


def _presses_touched(
    fault: Fault, keyboard: Keyboard | None, presses: Sequence[Press]
) -> Sequence[Press]:
    wiring = Wiring()
    fault.apply(wiring)
    if wiring.keys == KeyWiring():
        table = wiring.buses[KEYBOARD_CODE.where]
        return [press for press in presses if _is_changed(press.code, table)]
    keys = _keys_of_contacts(wiring.keys) | _keys_on_lines(wiring.keys, keyboard)
    if not keys:
        return presses
    roles = {str(key.role) for key in _keys(keyboard) if str(key.name) in keys}
    return [
        press
        for press in presses
        if keys & {press.key, *press.held} or roles.intersection(press.modifiers)
    ]


def _is_changed(codes: bytes, table: Table) -> bool:
    """Tell whether any of `codes` leaves the code lines as another one."""
    return any(table[code & SEVEN_BITS] != code & SEVEN_BITS for code in codes)


def _keys_of_contacts(keys: KeyWiring) -> set[str]:
    """Return the names of the keys whose own contacts are not as they should be."""
    return keys.dead | keys.bouncing | keys.flaky | keys.exchanged.keys()


def _keys_on_lines(keys: KeyWiring, keyboard: Keyboard | None) -> set[str]:
    """Return the names of the keys at the lines of the matrix that are not as they should be."""
    rows, columns = _lines_touched(keys.rows), _lines_touched(keys.columns)
    return {
        str(key.name)
        for key in _keys(keyboard)
        if key.matrix and (key.matrix[0] in rows or key.matrix[1] in columns)
    }


def _lines_touched(lines: MatrixLines) -> set[int]:
    return lines.open.union(lines.exchanged, *lines.bridges)


def _keys(keyboard: Keyboard | None) -> Sequence[Key]:
    if keyboard is None:
        return ()
    return keyboard.keys


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
