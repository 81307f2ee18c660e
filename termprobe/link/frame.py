"""Characters as levels on a wire: what one end hears of what the other sends.

Speed, format or parity of the two may differ.
"""

import functools
from collections.abc import Callable
from math import floor
from typing import NamedTuple

from termprobe.link.base import LineFormat

MARK, SPACE = "1", "0"
INVERTED = str.maketrans(MARK + SPACE, SPACE + MARK)
IDLE_BITS = 24
PARITY_OF_ONES: dict[str, Callable[[int], int]] = {
    "even": lambda ones: ones % 2,
    "odd": lambda ones: 1 - ones % 2,
    "mark": lambda ones: 1,
    "space": lambda ones: 0,
}
"""Parity: the parity bit for a number of ones in the data bits."""


class Sampled(NamedTuple):
    """A character as a listener takes it from the wire."""

    code: int
    error: str
    """Empty, `parity` or `framing`."""


@functools.lru_cache(maxsize=4096)
def heard(
    data: bytes,
    sender: LineFormat,
    listener: LineFormat,
    speed_ratio: float = 1.0,
    parity_fault: str = "",
    is_inverted: bool = False,
) -> tuple[Sampled, ...]:
    """Return what `listener` takes from the wire of `data`.

    The sender's clock runs `speed_ratio` as fast as its format says; `parity_fault` is as in
    Wiring.parity; `is_inverted` exchanges mark and space. The wire is idle before and after. The
    listener samples each bit once, in its middle. What was worked out is kept: a run is played
    again for each speed that may be wrong.
    """
    characters = "".join(_halves(code, sender, parity_fault) for code in data)
    wire = MARK + characters + MARK * 2 * IDLE_BITS
    if is_inverted:
        wire = wire.translate(INVERTED)
    bit = 2 * sender.speed_baud * speed_ratio / listener.speed_baud
    found: list[Sampled] = []
    start = wire.find(MARK + SPACE)
    while start >= 0:
        samples = _sampled(wire, start + 1, bit, listener)
        if samples[0] == MARK:  # too short for a start bit
            start = wire.find(MARK + SPACE, start + 1)
            continue
        found.append(_decoded(samples[1:], listener))
        middle_of_stop = floor(start + 1 + bit * (len(samples) - 0.5))
        start = wire.find(MARK + SPACE, max(start + 1, middle_of_stop))
    return tuple(found)


def _halves(code: int, sender: LineFormat, parity_fault: str) -> str:
    """Return the levels of one character, one level for each half of a bit."""
    bits = [code >> number & 1 for number in range(sender.data_bits)]
    if sender.parity != "none":
        bits.append(parity_bit(sum(bits), sender.parity, parity_fault))
    return SPACE * 2 + "".join(str(bit) * 2 for bit in bits) + MARK * round(2 * sender.stop_bits)


def parity_bit(ones: int, parity: str, fault: str = "") -> int:
    """Return the parity bit for so many ones; `fault` is as in Wiring.parity."""
    if fault in ("0", "1"):
        return int(fault)
    return PARITY_OF_ONES[parity](ones) ^ (fault == "inverted")


def _sampled(wire: str, edge: int, bit: float, listener: LineFormat) -> str:
    """Return the levels of a start bit that begins at `edge`, of what follows, of a stop bit."""
    count = 1 + listener.data_bits + (listener.parity != "none") + 1
    middles = (floor(edge + bit * (number + 0.5)) for number in range(count))
    return "".join(wire[min(middle, len(wire) - 1)] for middle in middles)


def _decoded(samples: str, listener: LineFormat) -> Sampled:
    """Return what stands in the samples: data bits, a parity bit where there is one, a stop bit."""
    data = samples[: listener.data_bits]
    code = int(data[::-1], 2)
    if samples[-1] == SPACE:
        return Sampled(code, "framing")
    if listener.parity != "none":
        expected = PARITY_OF_ONES[listener.parity](data.count(MARK))
        if samples[-2] != str(expected):
            return Sampled(code, "parity")
    return Sampled(code, "")
