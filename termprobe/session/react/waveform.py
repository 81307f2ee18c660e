"""Bytes sent over and over for the scope: the bits of their frames, and the waveform they give.

Pure.
"""

import itertools
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from termprobe.link.base import LineFormat
from termprobe.notation import show_code

SHOWN_STRETCHES = 12
SHOWN_BYTES = 16
COLUMNS_A_BIT = 7
DRAWN = "_‾"
"""How a line of level 0, and one of level 1, is drawn."""
LEVELS_NOTE = (
    "High is 1, stop and idle, at the UART's pin; on the cable that level is the negative one."
)
PARITY_BITS: dict[str, Callable[[int], tuple[int, ...]]] = {
    "none": lambda ones: (),
    "even": lambda ones: (ones % 2,),
    "odd": lambda ones: (1 - ones % 2,),
    "mark": lambda ones: (1,),
    "space": lambda ones: (0,),
}
"""Parity -> the parity bits of a character of so many ones."""


@dataclass(frozen=True)
class Loop:
    """What is sent over and over."""

    data: bytes
    format: LineFormat
    gap_s: float = 0.0
    """Idle time after the last byte, before the first comes again."""


class Stretch(NamedTuple):
    """Bits of one level, one after another."""

    level: int
    bits: int


def frame_bits(code: int, line: LineFormat) -> tuple[int, ...]:
    """Return the bits of one character in the order of time.

    Start 0, data lowest first, parity, stop 1.
    """
    data = [code >> bit & 1 for bit in range(line.data_bits)]
    parity = PARITY_BITS[line.parity](sum(data))
    return (0, *data, *parity, *[1] * line.stop_bits)


def line_bits(data: bytes, line: LineFormat) -> tuple[int, ...]:
    """Return the bits of `data` sent back to back."""
    return tuple(bit for code in data for bit in frame_bits(code, line))


def period_bits(bits: tuple[int, ...]) -> int:
    """Return the length of the shortest piece that gives `bits` when it is repeated."""
    length = len(bits)
    return next(
        size
        for size in range(1, length + 1)
        if length % size == 0 and bits[:size] * (length // size) == bits
    )


def stretches_of(bits: Sequence[int]) -> tuple[Stretch, ...]:
    """Return the stretches of one period that goes round, begun at the first falling edge."""
    falling = (index for index, bit in enumerate(bits) if bits[index - 1] == 1 and bit == 0)
    start = next(falling, 0)
    around = (*bits[start:], *bits[:start])
    return tuple(Stretch(level, len(list(same))) for level, same in itertools.groupby(around))


def waveform(loop: Loop) -> tuple[str, ...]:
    """Return sentences that say what the scope must show while `loop` runs."""
    bits = line_bits(loop.data, loop.format)
    bit_s = 1 / loop.format.speed_baud
    if loop.gap_s > 0:
        return (*_with_gap(loop, bits, bit_s), LEVELS_NOTE)
    return (*_without_gap(bits[: period_bits(bits)], bit_s), LEVELS_NOTE)


def _with_gap(loop: Loop, bits: tuple[int, ...], bit_s: float) -> tuple[str, str]:
    sending_s = len(bits) * bit_s
    whole_s = sending_s + loop.gap_s
    stretches = stretches_of((*bits, 1))[:-1] or (Stretch(0, len(bits)),)
    return (
        f"{len(loop.data)} character{'s' * (len(loop.data) > 1)} in {_time(sending_s)}, "
        f"then idle for {_time(loop.gap_s)}: again every {_time(whole_s)} "
        f"({_frequency(1 / whole_s)}).",
        _stretches_text(stretches, bit_s),
    )


def _without_gap(period: tuple[int, ...], bit_s: float) -> tuple[str, ...]:
    stretches = stretches_of(period)
    if len(stretches) == 2:
        return (_two_levels(stretches[0].bits, stretches[1].bits, bit_s),)
    whole_s = len(period) * bit_s
    return (
        f"The same {len(period)} bits come again every {_time(whole_s)} "
        f"({_frequency(1 / whole_s)}).",
        _stretches_text(stretches, bit_s),
    )


def _two_levels(low: int, high: int, bit_s: float) -> str:
    frequency = _frequency(1 / ((low + high) * bit_s))
    times = f"{_time(low * bit_s)} low, {_time(high * bit_s)} high."
    if low == high == 1:
        return f"A square wave of {frequency}, half the bit rate: {times}"
    if low == high:
        return f"A square wave of {frequency}: {times}"
    return f"A rectangular wave of {frequency}: {times}"


def _stretches_text(stretches: tuple[Stretch, ...], bit_s: float) -> str:
    words = [
        f"{('low', 'high')[stretch.level]} {_time(stretch.bits * bit_s)}" for stretch in stretches
    ]
    shown = ", ".join(words[:SHOWN_STRETCHES])
    if len(words) > SHOWN_STRETCHES:
        return f"From the first falling edge: {shown}, ..."
    return f"From the first falling edge: {shown}."


def drawn(data: bytes, line: LineFormat) -> tuple[str, str]:
    """Return (levels, names) that draw the frames of `data` as two lines, COLUMNS_A_BIT a bit."""
    levels, names, before = [], [], 1
    for code in data:
        for index, bit in enumerate(frame_bits(code, line)):
            levels.append(_edge(before, bit) + DRAWN[bit] * (COLUMNS_A_BIT - 1))
            names.append(f" {_name(index, line)}".ljust(COLUMNS_A_BIT))
            before = bit
    return "".join(levels), "".join(names)


def _edge(before: int, bit: int) -> str:
    return DRAWN[bit] if bit == before else "|"


def _name(index: int, line: LineFormat) -> str:
    """Return what bit `index` of a frame is called."""
    if index == 0:
        return "start"
    if index <= line.data_bits:
        return f"D{index - 1}"
    if line.parity != "none" and index == line.data_bits + 1:
        return "parity"
    return "stop"


def title(loop: Loop) -> str:
    """Return in words what is sent: bytes, gap, speed and format."""
    names = [show_code(code) for code in loop.data[:SHOWN_BYTES]]
    if len(loop.data) > SHOWN_BYTES:
        names.append("...")
    return f"{' '.join(names)}, {_gap_words(loop.gap_s)}, {loop.format}"


def _gap_words(gap_s: float) -> str:
    return f"{_time(gap_s)} gap" if gap_s else "back to back"


def _time(seconds: float) -> str:
    for factor, unit in ((1, "s"), (1e3, "ms")):
        if seconds * factor >= 1:
            return f"{seconds * factor:.4g} {unit}"
    return f"{seconds * 1e6:.4g} us"


def _frequency(hertz: float) -> str:
    return f"{hertz / 1000:.4g} kHz" if hertz >= 1000 else f"{hertz:.4g} Hz"
