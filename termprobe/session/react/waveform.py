"""Bytes sent over and over for the scope: the bits of their frames, and the waveform that they must give. Pure."""

from dataclasses import dataclass

from termprobe.link.base import LineFormat
from termprobe.notation import show_code

SHOWN_RUNS = 12


@dataclass(frozen=True)
class Loop:
    """What is sent over and over."""

    data: bytes
    format: LineFormat
    gap_s: float = 0.0
    """Idle time after the last byte, before the first comes again."""


def frame_bits(code, format):
    """Return the bits of one character on the line, in the order of time: start 0, data lowest first, parity, stop 1."""
    data = [code >> bit & 1 for bit in range(format.data_bits)]
    parity = {
        "none": [],
        "even": [sum(data) % 2],
        "odd": [1 - sum(data) % 2],
        "mark": [1],
        "space": [0],
    }[format.parity]
    return (0, *data, *parity, *[1] * format.stop_bits)


def line_bits(data, format):
    """Return the bits of `data` sent back to back."""
    return tuple(bit for code in data for bit in frame_bits(code, format))


def period_bits(bits):
    """Return the length of the shortest piece that gives `bits` when it is repeated."""
    length = len(bits)
    return next(
        size
        for size in range(1, length + 1)
        if length % size == 0 and bits[:size] * (length // size) == bits
    )


def runs_of(bits):
    """Return ((level, bits), ...) of one period that goes round, begun at the first falling edge."""
    start = next(
        (place for place in range(len(bits)) if bits[place - 1] == 1 and bits[place] == 0), 0
    )
    runs = []
    for bit in bits[start:] + bits[:start]:
        if runs and runs[-1][0] == bit:
            runs[-1][1] += 1
        else:
            runs.append([bit, 1])
    return tuple((level, count) for level, count in runs)


def waveform(loop):
    """Return sentences that say what the scope must show while `loop` runs."""
    bits = line_bits(loop.data, loop.format)
    bit_s = 1 / loop.format.speed_baud
    if loop.gap_s > 0:
        whole_s = len(bits) * bit_s + loop.gap_s
        return (
            f"{len(loop.data)} character{'s' * (len(loop.data) > 1)} in {_time(len(bits) * bit_s)}, then idle for "
            f"{_time(loop.gap_s)}: again every {_time(whole_s)} ({_frequency(1 / whole_s)}).",
            *_runs_text(runs_of((*bits, 1))[:-1] or ((0, len(bits)),), bit_s),
            _levels(),
        )
    period = period_bits(bits)
    runs = runs_of(bits[:period])
    if len(runs) == 2:
        return (_two_levels(runs, bit_s), _levels())
    return (
        f"The same {period} bits come again every {_time(period * bit_s)} ({_frequency(1 / (period * bit_s))}).",
        *_runs_text(runs, bit_s),
        _levels(),
    )


def _two_levels(runs, bit_s):
    (_, low), (_, high) = runs
    frequency = _frequency(1 / ((low + high) * bit_s))
    if low == high == 1:
        return f"A square wave of {frequency}, half the bit rate: {_time(bit_s)} low, {_time(bit_s)} high."
    if low == high:
        return (
            f"A square wave of {frequency}: {_time(low * bit_s)} low, {_time(high * bit_s)} high."
        )
    return (
        f"A rectangular wave of {frequency}: {_time(low * bit_s)} low, {_time(high * bit_s)} high."
    )


def _runs_text(runs, bit_s):
    shown = ", ".join(
        f"{('low', 'high')[level]} {_time(count * bit_s)}" for level, count in runs[:SHOWN_RUNS]
    )
    return (f"From the first falling edge: {shown}{', ...' if len(runs) > SHOWN_RUNS else '.'}",)


def _levels():
    return (
        "High is 1, stop and idle, at the UART's pin; on the cable that level is the negative one."
    )


def drawn(data, format):
    """Return (levels, names) that draw the frames of `data` as two lines, four columns a bit."""
    levels, names, before = [], [], 1
    for code in data:
        for place, bit in enumerate(frame_bits(code, format)):
            edge = "|" if bit != before else "_" if bit == 0 else "‾"
            levels.append(edge + ("‾‾‾" if bit else "___"))
            names.append(f" {_name(place, format)}".ljust(4)[:4])
            before = bit
    return "".join(levels), "".join(names)


def _name(place, format):
    if place == 0:
        return "go"
    if place <= format.data_bits:
        return str(place - 1)
    return "par" if format.parity != "none" and place == format.data_bits + 1 else "end"


def title(loop):
    """Return in words what is sent: bytes, gap, speed and format."""
    shown = " ".join(show_code(code) for code in loop.data[:16]) + (
        " ..." if len(loop.data) > 16 else ""
    )
    return f"{shown}, {f'{_time(loop.gap_s)} gap' if loop.gap_s else 'back to back'}, {loop.format}"


def _time(seconds):
    for factor, unit in ((1, "s"), (1e3, "ms")):
        if seconds * factor >= 1:
            return f"{seconds * factor:.4g} {unit}"
    return f"{seconds * 1e6:.4g} us"


def _frequency(hertz):
    return f"{hertz / 1000:.4g} kHz" if hertz >= 1000 else f"{hertz:.4g} Hz"
