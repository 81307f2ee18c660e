"""A break with a loopback plug: does one go out and come back, and how long is it really.

No driver tells how long a break was. The receiver tells it once it has lasted for a character; one
that is sent right behind it comes back when it is over. Both are delivered alike, so that what is
between them bounds its length.
"""

from collections.abc import Sequence

from termprobe.line.in_use import Checked, LineInUse, patience_s
from termprobe.link.base import Received
from termprobe.notation import show

BREAK_S = 0.25
BEHIND = b"U"
"""What is sent right behind the break; both its levels are short, so it is taken for no break."""
AS_ASKED = 0.2
"""By such a share of what is asked a break may be longer or shorter before that is told."""
SHOWN = 12
_BREAKS = ("break", "framing")


def plug_break(line: LineInUse) -> Checked:
    """Send a break; it must come back as one, or as a character 0 with a framing error."""
    if "break" not in line.abilities:
        return Checked(None, "this port sends no break")
    line.poll_events()
    line.send_break(BREAK_S)
    line.write(BEHIND)
    came = _come(line)
    data = b"".join(one.data for one in came).removesuffix(BEHIND)
    told = _length_told(_length_s(came, line.link_format.character_s))
    if any(one.error in _BREAKS for one in came):
        return Checked(True, f"the break came back as a break{told}")
    if b"\0" in data:
        return Checked(True, f"the break came back as NUL; this port does not tell breaks{told}")
    if not data:
        return Checked(None, "no break came back: this port may not send or not tell any")
    return Checked(False, f"in place of the break came {show(data[:SHOWN])}")


def _come(line: LineInUse) -> list[Received]:
    """Return what comes, until the character behind the break is there or nothing more comes."""
    came: list[Received] = []
    while not (came and came[-1].data.endswith(BEHIND)):
        more = line.poll_events(patience_s(line, 1))
        if not more:
            break
        came += more
    return came


def _length_s(came: Sequence[Received], character_s: float) -> float | None:
    """Return how long the break was: from a character before it was told to the one behind it."""
    told = [one.at_s for one in came if one.error in _BREAKS or b"\0" in one.data]
    if not told or not came[-1].data.endswith(BEHIND) or came[-1].at_s <= told[0]:
        return None
    return (came[-1].at_s - character_s) - (told[0] - character_s)


def _length_told(length_s: float | None) -> str:
    if length_s is None:
        return ", how long is not known"
    told = f", about {1000 * length_s:.0f} ms long"
    if abs(length_s - BREAK_S) <= AS_ASKED * BREAK_S:
        return told
    return f"{told} and not {1000 * BREAK_S:.0f} as asked: this port makes breaks of its own length"
