"""Whether characters are lost from what a board sends: by text of which each follows the last.

The text goes through the printable codes from 21h to 7Eh in order, again and again. A single key
that is held tells no loss, but all that is changed.
"""

from collections import Counter

FIRST, COUNT = 0x21, 0x5E
TEXT = bytes(range(FIRST, FIRST + COUNT))
_BETWEEN = b"\r\n \0\x11\x13"
"""May stand between: the ends of rows, and a handshake's codes."""
IS_ROTATION = 0.5
"""So large a share of its steps goes to the next code in any such text."""


def steps_of(data: bytes) -> list[int]:
    """Return by how many codes each character is further than the one before, 0 to COUNT - 1."""
    codes = [code & 0x7F for code in data if code not in _BETWEEN]
    return [(later - one) % COUNT for one, later in zip(codes, codes[1:], strict=False)]


def lost_in(data: bytes) -> int | None:
    """Return how many characters are missing in `data`; None where it is no such text."""
    steps = steps_of(data)
    if not steps or steps.count(1) < IS_ROTATION * len(steps):
        return None
    return sum((step - 1) % COUNT for step in steps)


def told_of(data: bytes) -> str:
    """Return in words what is lost in `data`, or that it cannot be told."""
    lost = lost_in(data)
    if lost is not None:
        return f"{lost} lost"
    codes = Counter(data.translate(None, _BETWEEN))
    if len(codes) > 1:
        return f"{len(codes)} different characters came"
    return "one key that repeats does not tell whether any is lost"
