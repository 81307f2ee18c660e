"""A board of which the keyboard alone is simulated: keys and line of a terminal whose display circuit is not described."""

from termprobe.board.board import Screen
from termprobe.board.faults.catalogue import fault
from termprobe.board.faults.key_matrix import healthy_wiring
from termprobe.board.hands import keys_of
from termprobe.errors import UsageError


class KeyboardBoard:
    """The keyboard of `profile` with the faults named; what it receives shows nowhere. Has what a Board has at its keyboard.

    Raise UsageError where the profile has no keyboard, and for faults that are not of the keyboard.
    """

    def __init__(self, profile, fault_names=()):
        if profile.keyboard is None:
            raise UsageError(
                f"{profile.id}: keys can be simulated only where the profile has a keyboard"
            )
        self.profile, self.wiring = profile, healthy_wiring()
        for name in fault_names:
            fault(profile, name).apply(self.wiring)
        self._keys, self._outgoing = keys_of(profile, self.wiring), []

    def press(self, key_name, modifiers=frozenset(), hold_s=0.0):
        """Press a key, release it after `hold_s`; raise UsageError where there is no such key."""
        self._outgoing += self._keys.press(key_name, frozenset(modifiers), hold_s)

    def chord(self, key_names):
        """Press keys one after another, holding them until all are down; raise UsageError where there is no such key."""
        self._outgoing += self._keys.chord(key_names)

    def type(self, text):
        """Press the keys whose codes spell `text`; raise UsageError where no key sends a character."""
        for character in text:
            self._outgoing += self._keys.type(character)

    def receive(self, data):
        """Take bytes from the line, without effect."""

    def take_sent(self):
        """Return (seconds after the press, bytes) for all sent since the last call, b"" for a break, and forget them."""
        taken, self._outgoing = self._outgoing, []
        return taken

    def set_option(self, name, position):
        """Move a switch, without effect."""

    def screen(self):
        """Return a blank Screen."""
        display = self.profile.display
        return Screen((" " * display.columns,) * display.rows, (0, 0), 0)
