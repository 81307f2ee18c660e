"""Rates that come of a clock, a divisor, and 16 samples a bit."""

import math
from typing import NamedTuple

from termprobe.link.rate_facts import FASTER_BAUD, NOMINAL_BAUD, PUBLISHED, SAMPLES_PER_BIT


class LineRate(NamedTuple):
    """A rate as a clock makes it."""

    clock_hz: float
    baud: float
    """What it should be."""
    divisor: int
    """From 1."""

    @property
    def actual_baud(self) -> float:
        """What it is."""
        return self.clock_hz / (SAMPLES_PER_BIT * self.divisor)

    @property
    def error_percent(self) -> float:
        """How much too fast it runs; negative where it runs slow."""
        return (self.actual_baud / self.baud - 1) * 100


def best_rate(clock_hz: float, baud: float) -> LineRate:
    """Return `baud` by the divisor of a published table, else by the one with the least error."""
    for table in PUBLISHED:
        if table.clock_hz == clock_hz and baud in table.divisors:
            return LineRate(clock_hz, baud, table.divisors[baud])
    return _least_wrong(clock_hz, baud)


def nearer_rate(rate: LineRate) -> LineRate | None:
    """Return the rate by the divisor that is less wrong; None where there is none."""
    nearest = _least_wrong(rate.clock_hz, rate.baud)
    if abs(nearest.error_percent) < abs(rate.error_percent):
        return nearest
    return None


def _least_wrong(clock_hz: float, baud: float) -> LineRate:
    below = max(1, math.floor(clock_hz / (SAMPLES_PER_BIT * baud)))
    candidates = (LineRate(clock_hz, baud, divisor) for divisor in (below, below + 1))
    return min(candidates, key=lambda rate: abs(rate.error_percent))


def divided(clock_hz: float, divisor: int) -> LineRate:
    """Return what `divisor` makes of the clock, as the nominal rate that is nearest by ratio."""
    actual_baud = clock_hz / (SAMPLES_PER_BIT * divisor)
    known = NOMINAL_BAUD + FASTER_BAUD
    nearest = min(known, key=lambda baud: abs(math.log(actual_baud / baud)))
    return LineRate(clock_hz, nearest, divisor)
