"""Yes and no: looks to the true class, against what any way of asking must take on average.

What is counted goes until a class is sure. The looks behind that, at those on which it hangs, stand
beside it: they are what it costs that no single wrong answer decides. Where the builder is asked of
regions too, a look has several answers, and each costs a second and no sending.

Without wrong answers a look tells one bit at most. With a share of them wrong it tells what a
channel of such errors carries, and the last answers must confirm what leads (Burnashev's law).
"""

import itertools
import math
import statistics

from termprobe.diagnosis.error_rates import USUAL_RATES, ErrorRates

from .person import ENOUGH, REGIONS, YES_OR_NO
from .sitting import sit
from .tables import heading, milliseconds, names, row, share, spread

USUAL = 40


def fewest_looks(bits, errors):
    """Return how many looks that many bits take on average, of whose answers `errors` are wrong."""
    if not errors:
        return bits
    right = 1 - errors
    capacity = 1 + errors * math.log2(errors) + right * math.log2(right)
    confirming = math.log2(1 / (1 - ENOUGH)) / ((right - errors) * math.log2(right / errors))
    return bits / capacity + confirming


LEAST_ERRORS = 0.001
"""No answer is impossible: of a builder who is never wrong this is thought."""


def all_alike(errors):
    """Return the rates of a builder whose every answer is wrong as easily."""
    share = max(errors, LEAST_ERRORS)
    return ErrorRates(share, share, share, share, share)


def play(request):
    drawn, odd = _names(request), []
    heading(
        f"Yes and no, {len(drawn)} faults, each look the one that tells most next",
        *("said", "wrong answers", "thought of them", "true class first", "stated"),
        *("looks until sure: mean, 90 %, most", "behind the first, mean", "bound", "ratio"),
        *("looks to confirm, mean", "answers of all looks, mean", "choosing: median, 90 %"),
    )
    for says, errors in itertools.product((YES_OR_NO, REGIONS), request.errors):
        for words, rates in (("what is usual", USUAL_RATES), ("just that", all_alike(errors))):
            found = [
                sit(name, says, errors, request.seed + number, request.is_fewest, rates)
                for number, name in enumerate(drawn)
            ]
            _show(says, errors, words, found)
            odd += [f"{one.name} at {errors:.0%}, {says}" for one in found if not one.is_first]
    names(odd)


def _show(says, errors, words, found):
    behind = statistics.mean(one.looks - one.confirming - one.begun for one in found)
    bound = fewest_looks(statistics.mean(one.bits for one in found), errors)
    row(
        *(says, f"{errors:.0%}", words),
        share(sum(one.is_first for one in found), len(found)),
        f"{statistics.mean(one.stated for one in found):.1%}",
        spread([one.looks - one.confirming for one in found]),
        *(f"{behind:.1f}", f"{bound:.1f}", f"{behind / bound:.2f}"),
        f"{statistics.mean(one.confirming for one in found):.1f}",
        f"{statistics.mean(one.answers for one in found):.1f}",
        milliseconds([choice_s for one in found for choice_s in one.next_s]),
    )


def _names(request):
    """Return the faults, as often as each is common: so the bound holds on average."""
    if request.is_every:
        return request.drawn(USUAL)
    return request.drawn_by_weight(USUAL)
