"""Faults of the lines that carry the keyboard's codes: stuck, swapped, bridged."""

from collections.abc import Iterator

from termprobe.board.faults.bus import faults_of_bus
from termprobe.board.faults.model import Fault
from termprobe.board.wiring import KEYBOARD_CODE
from termprobe.profile.model import Profile

BLOCKS = (KEYBOARD_CODE.where,)
OF_KEYBOARD = True


def faults(profile: Profile) -> Iterator[Fault]:
    """Yield every fault of the code lines."""
    yield from faults_of_bus(KEYBOARD_CODE.where, profile)
