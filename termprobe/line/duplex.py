"""Typed keys and what is sent, at the same time: neither may spoil the other."""

from collections import Counter

from termprobe.line.in_use import Checked, LineInUse, wait
from termprobe.link.base import Received
from termprobe.link.pacer import XOFF, XON
from termprobe.notation import show

STARTS_S = 10.0
"""So long a person may take to hold a key."""
LEAST = 3
"""So many characters of the key must come while text is sent."""
AT_MOST = 20
"""The text is sent so often at most, for a key that repeats slowly."""
PIECE = 4
SHOWN = 4


def both_ways(line: LineInUse) -> Checked:
    """Send the step's text while a key is held: what comes must be that key's code alone."""
    line.poll_events()
    held = list(line.poll_events(STARTS_S))
    if not held:
        return Checked(None, "no key comes: hold one down that repeats while text is sent")
    came: list[Received] = []
    for _ in range(AT_MOST):
        came += _sent_once(line)
        if len(_codes(came)) >= LEAST:
            break
    return _judged([*held, *came], len(_codes(came)))


def _sent_once(line: LineInUse) -> list[Received]:
    """Send the text a few characters at a time; return what comes meanwhile."""
    came: list[Received] = []
    for start in range(0, len(line.text), PIECE):
        line.send(line.text[start : start + PIECE])
        came += line.poll_events()
    wait(line, PIECE * PIECE * line.link_format.character_s)
    return came


def _codes(came: list[Received]) -> bytes:
    """Return what came without the codes of a handshake."""
    return b"".join(one.data for one in came).translate(None, bytes([XON, XOFF]))


def _judged(came: list[Received], count: int) -> Checked:
    if count < LEAST:
        return Checked(None, "the key was let go, or does not repeat, while text was sent")
    codes = Counter(_codes(came))
    key = bytes([codes.most_common(1)[0][0]])
    others = sum(codes.values()) - codes[key[0]]
    spoiled = sum(bool(one.error) for one in came)
    if others or spoiled:
        wrong = _codes(came).translate(None, key)[:SHOWN]
        return Checked(
            False,
            f"of {sum(codes.values())} characters that came while text was sent {others} are not "
            f"{show(key)}, such as {show(wrong) or 'none'}; {spoiled} with an error of the line",
        )
    return Checked(True, f"{sum(codes.values())} times {show(key)} came, and nothing else")
