"""Signs that levels on the line are inverted, as a UART's own pins have them without a driver.

What a receiver makes of inverted levels follows from the frame, so it is the same each time.
"""

from termprobe.line.in_use import Checked, LineInUse
from termprobe.link.base import LineFormat
from termprobe.link.frame import heard
from termprobe.notation import show

KEY = "key"
"""Word of a step's `told_by`: the step in which a key was typed."""
MOSTLY = 0.75
"""So large a share of ones among the data bits is a sign."""
SHOWN = 6
WARNING = (
    "never tie an RS-232 line to a TTL pin, for its volts destroy it: put a line driver and "
    "receiver between, and measure idle data first, -5 V or lower on RS-232, 0 or 5 V on TTL"
)


def inverted(data: bytes, line: LineFormat) -> bytes:
    """Return what a receiver makes of characters that arrive with inverted levels, far apart.

    What is all zeros, as the idle line itself, is a break and left out.
    """
    return b"".join(_one_inverted(code, line) for code in data)


def _one_inverted(code: int, line: LineFormat) -> bytes:
    sampled = heard(bytes([code]), line, line, is_inverted=True)
    return bytes(one.code for one in sampled if one.code)


def levels(line: LineInUse) -> Checked:
    """Tell by what came of typed keys whether the line is inverted."""
    came, typed = line.came(KEY), line.wanted(KEY)
    if came is None or typed is None:
        return Checked(None, "no key was typed: what came of one would tell")
    heard = came.replace(b"\0", b"")
    if came and set(heard) <= set(typed):
        return Checked(bool(heard), _of_right(heard))
    as_inverted = inverted(typed, line.link_format)
    if heard and set(heard) <= set(as_inverted):
        return Checked(
            False,
            f"{show(heard[:SHOWN])} came, exactly what inverted levels make of {show(typed)}, the "
            f"same each time: TTL pins without a driver, or one inverter too many; {WARNING}",
        )
    if heard and _ones(heard, line.link_format) >= MOSTLY:
        return Checked(
            False,
            f"{show(heard[:SHOWN])} came, nearly all ones: a line receiver that dies, or a line "
            f"that is inverted; {WARNING}",
        )
    if not came:
        return Checked(None, "nothing came of the key, so the levels are not known")
    return Checked(None, f"{show(came[:SHOWN])} came, which is no sign of inverted levels")


def _of_right(heard: bytes) -> str:
    if heard:
        return "the key came as it was typed: the levels are right"
    return f"only breaks came: the idle line is at space, as it is where inverted; {WARNING}"


def _ones(data: bytes, line: LineFormat) -> float:
    return sum(code.bit_count() for code in data) / (len(data) * line.data_bits)
