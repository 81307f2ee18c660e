"""Does the board stop when it is told to, after how many characters, and does it go on.

The flow is held by us, a character at a time: drivers and adapters would go on for a while. What
the board's profile does not claim is told, and not held against it.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from termprobe.line.in_use import Checked, LineInUse
from termprobe.line.rotation import lost_in, told_of
from termprobe.link.base import Received
from termprobe.link.pacer import XOFF, XON

STARTS_S = 10.0
"""So long the board may take to begin to send: a person has to hold a key."""
ENOUGH = 8
"""So many characters show at which rate it sends."""
QUIET_TIMES, LEAST_QUIET_S = 4, 0.3
"""It has stopped where nothing comes for so many times the longest pause, and so long at least."""
STOPS_S = 3.0
"""A board that still sends after this does not stop."""
GOES_ON_S = 3.0
"""A board that sends nothing for this long after it may does not go on."""


@dataclass
class _Sending:
    """What the board sends while it is stopped and let go."""

    before: list[Received] = field(default_factory=list)
    after_stop: list[Received] = field(default_factory=list)
    after_go: list[Received] = field(default_factory=list)
    has_stopped: bool = False

    @property
    def data(self) -> bytes:
        """All of it."""
        return _joined([*self.before, *self.after_stop, *self.after_go])


@dataclass(frozen=True)
class _Way:
    """One way to stop a board."""

    name: str
    claimed_by: str
    """The handshake of a profile that claims it; empty where none does."""
    hold: Callable[[LineInUse, bool], None]
    needs: str = ""
    """The ability of the line that it takes."""


def _hold_by_code(line: LineInUse, is_held: bool) -> None:
    line.write(bytes([{True: XOFF, False: XON}[is_held]]))


_XOFF = _Way("XOFF", "xon-xoff", _hold_by_code)
_CTS = _Way(
    "its CTS off, our RTS", "rts-cts", lambda line, held: line.set_line("rts", not held), "lines"
)
_DTR = _Way("our DTR off", "", lambda line, held: line.set_line("dtr", not held), "lines")


def board_stops_xoff(line: LineInUse) -> Checked:
    """Send XOFF while the board sends, then XON."""
    return _stops(line, _XOFF)


def board_stops_cts(line: LineInUse) -> Checked:
    """Drop RTS, which is the board's CTS on a crossed cable, and raise it again."""
    return _stops(line, _CTS)


def board_stops_dtr(line: LineInUse) -> Checked:
    """Drop DTR, which is the board's DSR and DCD on a crossed cable, and raise it again."""
    return _stops(line, _DTR)


def _stops(line: LineInUse, way: _Way) -> Checked:
    if way.needs and way.needs not in line.abilities:
        return Checked(None, "this port has no control lines")
    sending = _tried(line, way)
    if len(sending.before) < ENOUGH:
        return Checked(
            None, "the board does not send: hold a key down that repeats, or let it send"
        )
    is_claimed = line.handshake == way.claimed_by
    if not sending.has_stopped:
        said = f"the board goes on sending in spite of {way.name}"
        return weighed(said, False, is_claimed, line)
    said = f"{_stopped(sending)} after {way.name}; {_went_on(sending)}"
    is_whole = bool(sending.after_go) and not lost_in(sending.data)
    return weighed(f"{said}; {told_of(sending.data)}", is_whole, is_claimed, line)


def weighed(said: str, is_right: bool, is_claimed: bool, line: LineInUse) -> Checked:
    """Return what was found, held against the board only where it claims that it can do it."""
    if is_right or is_claimed:
        return Checked(is_right, said)
    claimed = {"none": "no handshake"}.get(line.handshake, line.handshake)
    return Checked(True, f"{said}; that is no failure, for the profile claims {claimed}")


def _stopped(sending: _Sending) -> str:
    return f"the board stops; characters that still came: {len(_joined(sending.after_stop))}"


def _went_on(sending: _Sending) -> str:
    if sending.after_go:
        return "it goes on when it may"
    return "it does not go on when it may again"


def _tried(line: LineInUse, way: _Way) -> _Sending:
    """Stop the board while it sends, let it go on; nothing is held at the end."""
    sending = _Sending()
    line.poll_events()
    _listen(line, sending.before, STARTS_S, ENOUGH)
    if len(sending.before) < ENOUGH:
        return sending
    quiet_s = _quiet_s(sending.before)
    stopped_s = line.clock.now_s()
    way.hold(line, True)
    try:
        while line.clock.now_s() < stopped_s + STOPS_S + quiet_s and not sending.has_stopped:
            came = line.poll_events(quiet_s)
            sending.after_stop += came
            sending.has_stopped = not came
    finally:
        way.hold(line, False)
    _listen(line, sending.after_go, max(GOES_ON_S, quiet_s), ENOUGH)
    return sending


def _listen(line: LineInUse, came: list[Received], limit_s: float, count: int) -> None:
    """Add what comes to `came` until there are `count` or nothing comes for `limit_s`."""
    while len(came) < count and (more := line.poll_events(limit_s)):
        came += [Received(one.at_s, bytes([code]), one.error) for one in more for code in one.data]


def _quiet_s(came: Sequence[Received]) -> float:
    """Return for how long nothing must come of a board that has stopped."""
    pauses = [later.at_s - one.at_s for one, later in zip(came, came[1:], strict=False)]
    return max(QUIET_TIMES * max(pauses), LEAST_QUIET_S)


def _joined(came: Sequence[Received]) -> bytes:
    return b"".join(one.data for one in came)
