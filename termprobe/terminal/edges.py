"""Which commands went over an edge of the screen, in bytes that a board received. Pure."""

from collections.abc import Callable, Mapping

from termprobe.profile.model import Profile
from termprobe.terminal.actions import ACTIONS
from termprobe.terminal.decoded import Decoded, Printable
from termprobe.terminal.decoder import Decoder
from termprobe.terminal.pyte_screen import PyteScreen

Leaves = Callable[[PyteScreen, Decoded], bool]


class EdgeWatch:
    """A screen that begins blank with the cursor home, and what its edges have seen."""

    def __init__(self, profile: Profile) -> None:
        self._profile = profile
        self._decoder = Decoder(profile)
        self._screen = PyteScreen(profile.display)

    def feed(self, data: bytes) -> set[str]:
        """Receive `data`; return the names of the commands in it that went over an edge.

        Only commands are meant for which the profile says what then happens.
        """
        found: set[str] = set()
        for meaning in self._decoder.feed(data):
            if isinstance(meaning, Printable):
                self._screen.put(meaning.text)
            elif isinstance(meaning, Decoded):
                command = meaning.command
                if command.edge is not None and _leaves(self._screen, meaning):
                    found.add(str(command.name))
                ACTIONS[command.action](self._screen, meaning, self._profile)
        return found


def _leaves(screen: PyteScreen, decoded: Decoded) -> bool:
    """Return whether a command leaves the screen from where its cursor is."""
    rule = _OVER_THE_EDGE.get(decoded.command.action)
    return rule is None or rule(screen, decoded)


def _out_of_range(screen: PyteScreen, decoded: Decoded) -> bool:
    row, column = decoded.row or 0, decoded.column or 0
    return not (0 <= row < screen.lines and 0 <= column < screen.columns)


_OVER_THE_EDGE: Mapping[str, Leaves] = {
    "left": lambda screen, decoded: screen.cursor.x < decoded.count,
    "right": lambda screen, decoded: screen.cursor.x + decoded.count >= screen.columns,
    "up": lambda screen, decoded: screen.cursor.y < decoded.count,
    "down": lambda screen, decoded: screen.cursor.y + decoded.count >= screen.lines,
    "next-line": lambda screen, decoded: screen.cursor.y + 1 >= screen.lines,
    "tab": lambda screen, decoded: not any(stop > screen.cursor.x for stop in screen.tabstops),
    "address": _out_of_range,
    "address-row": _out_of_range,
    "address-column": _out_of_range,
}
"""What of an action that has an edge goes over it; all others with one always do."""
