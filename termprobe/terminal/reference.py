"""The reference: what a board of a profile must show after it has received certain bytes."""

from termprobe.terminal.actions import ACTIONS
from termprobe.terminal.decoder import Decoder
from termprobe.terminal.pyte_screen import PyteScreen
from termprobe.terminal.events import Decoded, Printable

KINDS_OF_IGNORED = 100


class Reference:
    """A faultless terminal of the profile: blank and with the cursor home at first, whatever its power-up screen is.

    Any bytes may be fed, in any pieces: the same bytes give the same screen, and nothing raises.
    """

    def __init__(self, profile):
        self._profile = profile
        self._decoder = Decoder(profile)
        self._screen = PyteScreen(profile.display)
        self.ignored = {}
        """Codes or sequences that the profile gives no meaning: how often they came, for the first KINDS_OF_IGNORED kinds."""

    def feed(self, data):
        """Receive `data`."""
        screen, profile = self._screen, self._profile
        for event in self._decoder.feed(data):
            kind = type(event)
            if kind is Printable:
                screen.put(event.text)
            elif kind is Decoded:
                ACTIONS[event.command.action](screen, event, profile)
            elif event.codes in self.ignored or len(self.ignored) < KINDS_OF_IGNORED:
                self.ignored[event.codes] = self.ignored.get(event.codes, 0) + 1

    def screen(self):
        """Return the Screen of the screen, with all bells rung and replies sent so far."""
        return self._screen.shown()
