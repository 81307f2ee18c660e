"""The reference: what a board of a profile must show after it has received certain bytes."""

from collections.abc import Mapping

from termprobe.profile.model import Profile
from termprobe.profile.positions import is_halved, variant_at
from termprobe.terminal.actions import ACTIONS
from termprobe.terminal.decoded import Decoded, Printable
from termprobe.terminal.decoder import Decoder
from termprobe.terminal.fields import FieldScreen
from termprobe.terminal.screen import Screen

KINDS_OF_IGNORED = 100


class Reference:
    """A faultless terminal of the profile: blank and with the cursor home at first.

    That is so whatever its power-up screen is. Any bytes may be fed, in any pieces: the same bytes
    give the same screen, and nothing raises. Options stand in their normal positions at first.
    """

    def __init__(self, profile: Profile) -> None:
        self._profile = profile
        self._decoder = Decoder(profile)
        self._screen = FieldScreen(profile.display)
        self._positions: dict[str, str] = {}
        self.set_options({})
        self.ignored: dict[bytes, int] = {}
        """Codes or sequences that the profile gives no meaning: how often they came, for the first
        KINDS_OF_IGNORED kinds."""

    def set_options(self, positions: Mapping[str, str]) -> None:
        """Move options of the board; those that are not named stay where they are."""
        self._positions |= positions
        self._screen.variant = variant_at(self._profile, self._positions)
        self._screen.set_halved(is_halved(self._profile, self._positions))

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
