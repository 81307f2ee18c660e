"""A long text without a pause: whether the board, the line and the handshake bear it.

What becomes of it on the screen is asked afterwards; here only what comes back is judged.
"""

from collections import Counter

from termprobe.line.in_use import Checked, LineInUse, counted_since, gathered
from termprobe.link.base import Received
from termprobe.link.pacer import XOFF, XON
from termprobe.notation import show

TEXT_S = 60.0
"""So long it takes at most, at the speed of the line."""
MOST = 20_000
"""So many characters it has at most; at 9600 baud that is a third of a minute."""
TAIL = 64
"""So many characters that still come afterwards are enough."""
SHOWN = 8


def long_text(line: LineInUse) -> Checked:
    """Send the last part of the step's text again and again; nothing but a handshake may come."""
    came, before = list(line.poll_events()), dict(line.counters())
    begun_s, sent = line.clock.now_s(), 0
    for _ in range(_times(line)):
        line.send(line.last_text)
        sent += len(line.last_text)
        came += line.poll_events()
    came += gathered(line, TAIL)
    took_s = line.clock.now_s() - begun_s
    counted = counted_since(line, before)
    return _judged(f"{sent:,} characters more sent in {took_s:.0f} s{counted}", came)


def _times(line: LineInUse) -> int:
    """Return how often the text is sent: at least once, and no longer than is borne."""
    most = min(MOST, int(TEXT_S / line.link_format.character_s))
    return max(most // len(line.last_text), 1)


def _judged(said: str, came: list[Received]) -> Checked:
    """Return what came of it: codes that no key was pressed for, errors, and how often to stop."""
    data = b"".join(one.data for one in came)
    stops = data.count(XOFF)
    if stops:
        said += f", {stops} times stopped by XOFF"
    others = data.translate(None, bytes([XON, XOFF]))
    errors = Counter(one.error for one in came if one.error)
    if not others and not errors:
        return Checked(True, f"{said}; nothing else came back")
    told = [f"{show(others[:SHOWN])} came back, though no key was pressed"] * bool(others)
    told += [f"{count} with an error of the line ({kind})" for kind, count in errors.items()]
    return Checked(False, f"{said}; {'; '.join(told)}")
