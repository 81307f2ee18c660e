"""What a board may send, and what it must not: after a request, a break, and with a key held."""

from collections import Counter
from collections.abc import Sequence

from termprobe.line.in_use import Checked, LineInUse, patience_s
from termprobe.link.base import Received
from termprobe.notation import show

LISTENS_S = 5.0
"""So long keys are pressed that must not come."""
BREAK_S = 0.25
BEGINS_S = 20.0
"""So long a person may take to press what the question says."""
QUIET_S = 2.0
"""Where nothing has come for so long, the key was let go."""
MOST = 4096
"""Characters that are listened to."""
LEAST_REPEATED = 5
"""So many times a code must come for a key to be repeating."""
SHOWN = 12
WITH_A_KEY_HELD = ("key-repeats", "keys-stay-local")
"""Checks during which a key is held down."""


def nothing_comes(line: LineInUse) -> Checked:
    """Send the step's bytes once more; nothing may come of them."""
    line.poll_events()
    line.send(line.text)
    came = line.poll_events(patience_s(line, len(line.text)))
    if not came:
        return Checked(True, f"nothing came of {show(line.text)}")
    data = b"".join(one.data for one in came)
    return Checked(False, f"{show(data[:SHOWN])} came of {show(line.text)}, and nothing may")


def break_sent(line: LineInUse) -> Checked:
    """Send a break; the board may send nothing of it. What it shows is another step's to ask."""
    if "break" not in line.abilities:
        return Checked(None, "this port sends no break")
    line.poll_events()
    line.send_break(BREAK_S)
    came = b"".join(one.data for one in line.poll_events(patience_s(line, 1)))
    if came:
        return Checked(False, f"{show(came[:SHOWN])} came of a break, and nothing may")
    return Checked(True, f"a break of {1000 * BREAK_S:.0f} ms was sent, and nothing came of it")


def keys_stay_local(line: LineInUse) -> Checked:
    """Listen while keys are pressed in local: none may come."""
    line.poll_events()
    came = b"".join(one.data for one in line.poll_events(LISTENS_S))
    if came:
        return Checked(False, f"{show(came[:SHOWN])} came, and in local nothing may")
    return Checked(True, f"nothing came for {LISTENS_S:g} s")


def key_repeats(line: LineInUse) -> Checked:
    """Listen to a key that is held and let go: its code must come over and over, then no more."""
    came = _pressed(line)
    codes = b"".join(one.data for one in came)
    if not codes:
        return Checked(None, "no key came: hold one down that repeats")
    if len(codes) >= MOST:
        return Checked(False, f"{len(codes)} characters came, and no end")
    key, count = Counter(codes).most_common(1)[0]
    if count < len(codes):
        others = bytes(code for code in codes if code != key)
        named = show(bytes([key]))
        return Checked(False, f"among {count} times {named} came {show(others[:SHOWN])}")
    if any(one.error for one in came):
        return Checked(False, "some characters came with an error of the line")
    said = f"{show(bytes([key]))} came {_times(count)}"
    if count < LEAST_REPEATED:
        return Checked(False, f"{said}: it must repeat while it is held")
    return Checked(True, f"{said}, {_rate(came)}and then no more")


def _pressed(line: LineInUse) -> list[Received]:
    """Return what comes of a press until it is quiet again; nothing where none is made."""
    came = list(line.poll_events(BEGINS_S))
    while came and sum(len(one.data) for one in came) < MOST:
        more = line.poll_events(QUIET_S)
        if not more:
            break
        came += more
    return came


def _rate(came: Sequence[Received]) -> str:
    """Return how often a second the characters came, where that can be told."""
    count, seconds = sum(len(one.data) for one in came) - 1, came[-1].at_s - came[0].at_s
    if seconds <= 0:
        return ""
    return f"{count / seconds:.1f} a second, "


def _times(count: int) -> str:
    return {1: "once", 2: "twice"}.get(count, f"{count} times")
