"""The reference: what a board of a profile must show after it has received certain bytes."""

from termprobe.profile.model import Profile
from termprobe.terminal.actions import ACTIONS
from termprobe.terminal.decoded import Decoded, Printable
from termprobe.terminal.decoder import Decoder
from termprobe.terminal.pyte_screen import PyteScreen
from termprobe.terminal.screen import Screen

KINDS_OF_IGNORED = 100


class Reference:
    """A faultless terminal of the profile: blank and with the cursor home at first.

    That is so whatever its power-up screen is. Any bytes may be fed, in any pieces: the same bytes
    give the same screen, and nothing raises.
    """

    def __init__(self, profile: Profile) -> None:
        self._profile = profile
        self._decoder = Decoder(profile)
        self._screen = PyteScreen(profile.display)
        self.ignored: dict[bytes, int] = {}
        """Codes or sequences that the profile gives no meaning: how often they came, for the first
        KINDS_OF_IGNORED kinds."""

    def feed(self, data: bytes | bytearray) -> None:
        """Receive `data`."""
        screen, profile = self._screen, self._profile
        for event in self._decoder.feed(data):
            if isinstance(event, Printable):
                screen.put(event.text)
            elif isinstance(event, Decoded):
                ACTIONS[event.command.action](screen, event, profile)
            elif event.codes in self.ignored or len(self.ignored) < KINDS_OF_IGNORED:
                self.ignored[event.codes] = self.ignored.get(event.codes, 0) + 1

    def screen(self) -> Screen:
        """Return what the screen shows, with all bells rung and replies sent so far."""
        return self._screen.shown()
