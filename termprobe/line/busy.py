"""Does the board say so when it is busy, and what becomes of text where that is obeyed or not.

A character is sent when the one before has left: none is in flight when the board says stop. Where
the adapter is known to be late, what it has to tell is waited for as well.
"""

import math

from termprobe.line.handshake import weighed
from termprobe.line.in_use import Checked, LineInUse, wait
from termprobe.line.lateness import DELAY
from termprobe.link.pacer import XOFF, XON

BUSY_LIMIT_S = 10.0
"""A board that is busy for longer never goes on."""
TIMES = 4
"""How often text is sent after which the board may be busy."""
BEGINS_S = 1.0
"""What was sent before is taken to be done after this."""
PART_S = 0.005
NOT_MEASURED = (
    "how late the adapter tells that is not measured, so what is lost says nothing of the board; "
    "plug-delay, with a loopback plug, measures it"
)


class _BusyWatch:
    """Watches whether the board says that it has no room, by a code or a control line."""

    def __init__(self, line: LineInUse) -> None:
        self._line, self._is_held_by_code = line, False
        self._free: set[str] = set()
        """Control lines that have been on: they say that the board is busy where they are off."""
        self.ways: set[str] = set()
        self.count = 0
        """How often it has said so."""
        self._was_busy = False

    def look(self) -> bool:
        """Return whether the board is busy now."""
        for code in b"".join(one.data for one in self._line.poll_events()):
            if code in (XON, XOFF):
                self._is_held_by_code = code == XOFF
        levels = self._line.lines() or {}
        self._free |= {name for name, is_on in levels.items() if is_on and name != "ri"}
        ways = {f"{name.upper()} off" for name in self._free if not levels.get(name)}
        if self._is_held_by_code:
            ways.add("XOFF")
        is_busy = bool(ways)
        self.ways |= ways
        self.count += is_busy and not self._was_busy
        self._was_busy = is_busy
        return is_busy

    def begin(self) -> None:
        """Look for a while: the board may still be busy with what was sent before."""
        until_s = self._line.clock.now_s() + BEGINS_S
        while self._line.clock.now_s() < until_s:
            self.look()
            wait(self._line, PART_S)
        self.count = 0

    def wait(self) -> bool:
        """Return True once the board is free, False where it is busy for too long."""
        limit_s = self._line.clock.now_s() + BUSY_LIMIT_S
        while self.look():
            if self._line.clock.now_s() >= limit_s:
                return False
            wait(self._line, PART_S)
        return True


def host_sees_busy(line: LineInUse) -> Checked:
    """Send the step's text again and again as fast as it goes, and wait where the board is busy."""
    delay_s = line.measured(DELAY)
    busy = _BusyWatch(line)
    busy.begin()
    for code in line.text * TIMES:
        if not busy.wait():
            ways = " and ".join(sorted(busy.ways))
            return Checked(
                False, f"the board says {ways} and does not let go for {BUSY_LIMIT_S:g} s"
            )
        _put(line, code, delay_s or 0.0)
    busy.wait()
    if not busy.count:
        return _never_busy(line, delay_s or 0.0)
    ways = " and ".join(sorted(busy.ways))
    said = f"the board says that it is busy by {ways}, {busy.count} times"
    if delay_s is None:
        return Checked(None, f"{said}; {NOT_MEASURED}")
    through = math.ceil(delay_s / line.link_format.character_s)
    return Checked(
        True,
        f"{said}; the adapter, {1000 * delay_s:.0f} ms late, was waited for: without that the "
        f"board needs room for {through} more characters",
    )


def _never_busy(line: LineInUse, delay_s: float) -> Checked:
    """Return what a board that is never busy shows, where each character waited for the adapter."""
    said = f"the board never says that it is busy, over {len(line.text) * TIMES} characters"
    if line.handshake != "none" and delay_s > line.link_format.character_s:
        return Checked(
            None,
            f"{said}; the adapter is late by {1000 * delay_s:.0f} ms, and with so long a pause "
            "behind each a board need not be: try a slower speed, or another adapter",
        )
    return weighed(said, False, False, line)


def busy_ignored(line: LineInUse) -> Checked:
    """Send the same without waiting; what is lost then is seen on the screen."""
    busy = _BusyWatch(line)
    busy.begin()
    for code in line.text * TIMES:
        busy.look()
        _put(line, code, 0.0)
    busy.wait()
    return Checked(True, f"{len(line.text) * TIMES} characters sent, busy {busy.count} times")


def _put(line: LineInUse, code: int, delay_s: float) -> None:
    """Send one character; return when it has left, and what it makes the board say has come.

    No second one is then in flight. What comes is `delay_s` late.
    """
    line.write(bytes([code]))
    wait(line, line.link_format.character_s + delay_s)
