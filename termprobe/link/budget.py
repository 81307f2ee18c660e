"""How far the two ends of a line may differ before the last bit of a frame is sampled wrong.

A deviation is in per cent of the other end's rate, negative where an end is the slower one.
"""

from typing import NamedTuple

from termprobe.link.base import LineFormat
from termprobe.link.rate_facts import SAMPLES_PER_BIT, VOTING, VotingReceiver

EVEN_DUTY = 0.5


class Deviation(NamedTuple):
    """From where to where something may deviate."""

    slow_percent: float
    fast_percent: float

    def has(self, percent: float) -> bool:
        """Tell whether `percent` lies in it."""
        return self.slow_percent <= percent <= self.fast_percent


def bits_after_start(format: LineFormat) -> int:
    """Return how many data and parity bits a frame has."""
    return format.data_bits + (format.parity != "none")


def voting_budget(bits: int, receiver: VotingReceiver = VOTING) -> Deviation:
    """Return how far a sender may be from a receiver that takes the majority of three samples.

    `bits` are data and parity bits. Source of the formulas: data sheet of the ATmega328P, table of
    the recommended maximum receiver error.
    """
    samples = receiver.samples_per_bit
    slowest = (bits + 1) * samples / (samples - 1 + bits * samples + receiver.first_sample)
    fastest = (bits + 2) * samples / ((bits + 1) * samples + receiver.middle_sample)
    return Deviation((slowest - 1) * 100, (fastest - 1) * 100)


def margin_percent(frame_bits: int, deviation_percent: float, duty: float = EVEN_DUTY) -> float:
    """Return what is left of a bit, in per cent, where a receiver samples it once, in its middle.

    `frame_bits` are start, data, parity and stop; `duty` is that of the receiver's clock. Source:
    the receive margin of the SH7206 hardware manual, equations 1 and 2.
    """
    off = abs(deviation_percent) / 100
    of_start = 0.5 - 1 / (2 * SAMPLES_PER_BIT)
    of_duty = abs(duty - EVEN_DUTY) / SAMPLES_PER_BIT * (1 + off)
    return (of_start - (frame_bits - 0.5) * off - of_duty) * 100


def middle_budget(frame_bits: int) -> Deviation:
    """Return where margin_percent() comes to nothing, with a clock of even duty."""
    percent = margin_percent(frame_bits, 0) / (frame_bits - 0.5)
    return Deviation(-percent, percent)


def budget_of(format: LineFormat) -> Deviation:
    """Return how far the two ends of a line may differ: by the stricter receiver.

    A receiver looks at the first stop bit alone, so a second one makes no difference.
    """
    bits = bits_after_start(format)
    voting, middle = voting_budget(bits), middle_budget(bits + 2)
    return Deviation(
        max(voting.slow_percent, middle.slow_percent),
        min(voting.fast_percent, middle.fast_percent),
    )


def left_for_other(budget: Deviation, error_percent: float) -> Deviation:
    """Return how far from the nominal rate the other end may run, where this one runs wrong.

    Each end must understand what the other sends.
    """
    own = 1 + error_percent / 100
    slowest, fastest = 1 + budget.slow_percent / 100, 1 + budget.fast_percent / 100
    lowest = max(own * slowest, own / fastest)
    highest = min(own * fastest, own / slowest)
    return Deviation((lowest - 1) * 100, (highest - 1) * 100)


def used_share(budget: Deviation, error_percent: float) -> float:
    """Return how much of the budget an end that is so far off uses up, from 0; over 1 is too much.

    The other end is exact. The larger of both directions counts.
    """
    as_sender, as_receiver = error_percent, (1 / (1 + error_percent / 100) - 1) * 100
    return max(_share(budget, as_sender), _share(budget, as_receiver))


def _share(budget: Deviation, percent: float) -> float:
    if percent < 0:
        return percent / budget.slow_percent
    return percent / budget.fast_percent
