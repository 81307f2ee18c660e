"""Published facts of rates, and of how far apart two ends may be: the one file that holds them.

What follows of them is worked out in `rates.py` and `budget.py`.
"""

from typing import NamedTuple

SAMPLES_PER_BIT = 16
"""The clock of a receiver runs so often as fast as its bits (data sheets of hard-wired UARTs)."""

NOMINAL_BAUD = (
    *(50, 75, 110, 134.5, 150, 300, 600, 1200, 1800, 2000, 2400, 3600, 4800, 7200, 9600, 19200),
)
"""The sixteen rates of dual generators, and of the divisor tables of the TL16C550C data sheet."""
FASTER_BAUD = (38400, 56000)
"""What those tables have beyond them."""


class DivisorTable(NamedTuple):
    """What a published table divides a clock by, for 16 times each rate."""

    clock_hz: float
    divisors: dict[float, int]
    """By rate."""
    source: str


def _by_rate(*divisors: int) -> dict[float, int]:
    """Return the divisors by rate; they are given in the order of the rates, slowest first."""
    return dict(zip(NOMINAL_BAUD + FASTER_BAUD, divisors, strict=False))


PUBLISHED = (
    DivisorTable(
        1_843_200,
        _by_rate(
            *(2304, 1536, 1047, 857, 768, 384, 192, 96, 64, 58, 48, 32, 24, 16, 12, 6),
            *(3, 2),
        ),
        "data sheet of the TL16C550C (SLLS177), Table 7-9",
    ),
    DivisorTable(
        3_072_000,
        _by_rate(
            *(3840, 2560, 1745, 1428, 1280, 640, 320, 160, 107, 96, 80, 53, 40, 27, 20, 10),
            *(5,),
        ),
        "data sheet of the TL16C550C (SLLS177), Table 7-10",
    ),
    DivisorTable(
        5_068_800,
        _by_rate(6336, 4224, 2880, 2355, 2112, 1056, 528, 264, 176, 158, 132, 88, 66, 44, 33, 16),
        "data sheet of the dual generators COM5016 and COM8116, as it is cited elsewhere",
    ),
)
"""For 19200 out of 5.0688 MHz the exact divisor would be 16.5: the table has 16."""

USUAL_CLOCKS_HZ = (1_843_200, 2_457_600, 3_072_000, 4_915_200, 5_068_800)
"""What crystals of such boards are cut for (common practice)."""


class VotingReceiver(NamedTuple):
    """A receiver that takes the majority of three samples in the middle of each bit."""

    samples_per_bit: int
    first_sample: int
    """Number of the first sample of the three."""
    middle_sample: int
    source: str


VOTING = VotingReceiver(
    SAMPLES_PER_BIT, 8, 9, "data sheet of the ATmega328P, receiver error at normal speed"
)
RECOMMENDED_PERCENT = {5: 3.0, 6: 2.5, 7: 2.0, 8: 2.0, 9: 1.5, 10: 1.5}
"""Data and parity bits: how far each end should be off at most (the same table as VOTING)."""
ADAPTER_PERCENT = 2.0
"""How far off an adapter is tried in a verdict.

An own estimate: chips with a coarse divider come so far. It is about half of what a frame bears.
"""
