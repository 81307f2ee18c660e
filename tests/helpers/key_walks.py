"""Walks over simulated keyboards: what each press gives, as it is concluded from."""

from termprobe.board.keyboard_board import simulate
from termprobe.diagnosis.key_outcomes import Outcome
from termprobe.plan.presses import coded_presses


def came_of(keyboard, press):
    """Return the bytes that `keyboard`, a KeyScan, sends for a press or a chord."""
    if press.held:
        events = keyboard.chord([*press.held, press.key])
    else:
        events = keyboard.press(press.key, frozenset(press.modifiers))
    return b"".join(data for _, data in events)


def walked(profile, *faults, presses=None, times=1):
    """Return press id -> outcomes of a walk, over all coded presses or `presses`, made so often."""
    keyboard = simulate(profile, faults)
    came = {}
    for press in coded_presses(profile) if presses is None else presses:
        came[press.id] = [Outcome.of(came_of(keyboard, press)) for _ in range(times)]
    return came
