"""A keyboard with its faults, and a board of which it alone is simulated.

Such a board is the keys and the line of a terminal whose display circuit is not described.
"""

from collections.abc import Iterable, Sequence

from termprobe.board.base import NO_MODIFIERS, Emitted, TubePicture
from termprobe.board.faults.catalogue import keyboard_fault
from termprobe.board.faults.model import Fault
from termprobe.board.hands import keys_of
from termprobe.board.keyboard import KeyScan
from termprobe.board.wiring import Wiring
from termprobe.errors import UsageError
from termprobe.profile.model import Keyboard, Profile


def simulate(profile: Profile, faults: Iterable[str | Fault] = ()) -> KeyScan:
    """Return the keyboard of `profile` with the faults named, or given; raise UsageError."""
    return KeyScan(_keyboard_of(profile), _wire(profile, faults))


class KeyboardBoard:
    """The keyboard of `profile` with the faults named, or given; a SimulatedBoard.

    What it receives shows nowhere. Raise UsageError where the profile has no keyboard, and for
    faults that are not of the keyboard.
    """

    def __init__(self, profile: Profile, faults: Iterable[str | Fault] = ()) -> None:
        _keyboard_of(profile)
        self.profile, self.wiring = profile, _wire(profile, faults)
        self.power_up()

    def power_up(self) -> None:
        """Switch off and on: what has been sent and not taken is lost."""
        self._keys = keys_of(self.profile, self.wiring)
        self._outgoing: list[Emitted] = []

    def press(
        self, key_name: str, modifiers: Iterable[str] = NO_MODIFIERS, hold_s: float = 0.0
    ) -> None:
        self._outgoing += self._keys.press(key_name, modifiers, hold_s)

    def chord(self, key_names: Sequence[str]) -> None:
        self._outgoing += self._keys.chord(key_names)

    def type(self, text: str) -> None:
        for character in text:
            self._outgoing += self._keys.type(character)

    def receive(self, data: bytes) -> None:
        """Take bytes from the line, without effect."""

    def take_sent(self) -> list[Emitted]:
        taken, self._outgoing = self._outgoing, []
        return taken

    def set_option(self, name: str, position: str) -> None:
        """Move a switch, without effect."""

    def screen(self) -> TubePicture:
        """Return a blank TubePicture."""
        display = self.profile.display
        return TubePicture((" " * display.columns,) * display.rows, (0, 0), 0)


def _keyboard_of(profile: Profile) -> Keyboard:
    if profile.keyboard is None:
        raise UsageError(
            f"{profile.id}: keys can be simulated only where the profile has a keyboard"
        )
    return profile.keyboard


def _wire(profile: Profile, faults: Iterable[str | Fault]) -> Wiring:
    wiring = Wiring()
    for fault in faults:
        if isinstance(fault, str):
            fault = keyboard_fault(profile, fault)
        fault.apply(wiring)
    return wiring
