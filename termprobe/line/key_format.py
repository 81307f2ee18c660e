"""Whether a key that is pressed over and over comes in the speed and frame that the line has."""

from collections.abc import Collection

from termprobe.line.format_finding import find_format
from termprobe.line.format_search import AskedPress
from termprobe.line.formats import WireFormat, wrong_straps
from termprobe.line.in_use import Checked, LineInUse
from termprobe.link.base import LineFormat, Received
from termprobe.link.frame_text import frame_text

KEY = "U"
ONE_KEY_WAIT_S = 7.0
"""How long it is waited for; three times, where nothing comes at all."""
ELSE = "`termprobe link --find-format` asks for other keys, and names it"


def key_format(line: LineInUse) -> Checked:
    """Listen to U at one rate and another; it must be what the format of the line makes of it.

    U alone does not tell 7E1 from 8N1; what is wrong in a way that it shows is named.
    """
    if "frames" not in line.abilities:
        return Checked(None, "this port sets no speed and frame")
    wanted = line.link_format
    found = find_format(_ListenedLine(line), line.clock, _nobody, wanted, ONE_KEY_WAIT_S, KEY)
    if found.is_silent:
        return Checked(None, f"nothing came: no {KEY}; `termprobe link --silent` asks why")
    if not found.is_sure:
        return Checked(None, f"what came of {KEY} is no format for certain; {ELSE}")
    wires = found.classes[0][0]
    if any(not wrong_straps(wire, wanted) for wire in wires):
        said = f"{KEY} comes as {wanted.speed_baud} {frame_text(wanted)} sends it"
        return Checked(True, said)
    named = ", or ".join(_with_what_is_wrong(wire, wanted) for wire in wires)
    return Checked(False, f"{KEY} comes as of {named}; {ELSE}")


def _with_what_is_wrong(wire: WireFormat, wanted: LineFormat) -> str:
    format, wrong = wire.best_format(wanted), "; ".join(wrong_straps(wire, wanted))
    return f"{format.speed_baud} {frame_text(format)} ({wrong})"


def _nobody(asked: AskedPress) -> None:
    """Ask nobody: the builder presses on and on."""


class _ListenedLine:
    """A line in use, as a search listens to it."""

    name = "the line"

    def __init__(self, line: LineInUse) -> None:
        self._line = line
        self.format = line.link_format
        self.abilities: Collection[str] = line.abilities

    def set_format(self, format: LineFormat) -> None:
        """Take another speed and frame."""
        self._line.set_format(format)

    def read(self, wait_s: float) -> tuple[Received, ...]:
        """Return what has come; wait at most `wait_s` for the first."""
        return tuple(self._line.poll_events(wait_s))
