"""What each press sends on a keyboard with a fault of its matrix, its keys or its code lines."""

from collections.abc import Iterator, Sequence

from termprobe.board.faults.catalogue import keyboard_catalogue
from termprobe.board.faults.model import Fault
from termprobe.board.keyboard import KeyScan
from termprobe.board.keyboard_board import simulate
from termprobe.board.wiring import Wiring
from termprobe.diagnosis.fault_names import parsed
from termprobe.diagnosis.key_hypothesis import Hypothesis, Sends, outcome_of, supposed_fault
from termprobe.diagnosis.key_outcomes import Predicted
from termprobe.plan.model import Press
from termprobe.profile.model import Profile

TRIES = {"key-flaky": 2}
"""Kinds of faults whose presses have to be made more than once to see all that may come."""


def faults_of_keyboard(
    profile: Profile, presses: Sequence[Press], healthy: Hypothesis
) -> Iterator[Hypothesis]:
    """Yield the Hypothesis of each fault that a keyboard alone can have.

    Only the presses that a fault can touch are simulated; the others are as on the `healthy` one.
    """
    for fault in keyboard_catalogue(profile).values():
        asked = _presses_touched(fault, presses)
        tries = TRIES.get(parsed(fault.name).kind, 1)
        sent = _sent(simulate(profile, (fault,)), asked, tries)
        yield supposed_fault(fault, {**healthy.sends, **sent})


def _presses_touched(fault: Fault, presses: Sequence[Press]) -> Sequence[Press]:
    keys = _keys_touched(fault)
    if not keys:
        return presses
    return [press for press in presses if keys & {press.key, *press.held}]


def _keys_touched(fault: Fault) -> set[str]:
    """Return the names of the keys whose contacts are all that `fault` touches.

    There are none where it is of a line or a diode.
    """
    wiring = Wiring()
    fault.apply(wiring)
    keys = wiring.keys
    return keys.dead | keys.bouncing | keys.flaky | keys.exchanged.keys()


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
