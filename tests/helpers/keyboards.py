"""What tests of keyboards and their faults have in common."""

from termprobe.board.keyboard_board import simulate
from termprobe.plan.presses import listed_presses
from termprobe.profile.load import load

NAMES = ("singlebyte-24x80", "ecma48-24x80")
PROFILES = {name: load(name) for name in NAMES}
LISTED = {name: listed_presses(profile) for name, profile in PROFILES.items()}


def walk(profile, *faults, times=1):
    """Return press id -> tuple of the codes that come.

    With `times` the presses are done that often, and their codes joined.
    """
    keys = simulate(profile, faults)
    came = {}
    for press in listed_presses(profile) * times:
        codes = tuple(data for _, data in keys.press(press.key, press.modifiers))
        came[press.id] = came.get(press.id, ()) + codes
    return came
