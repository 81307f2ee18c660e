"""Yes and no: looks to the true class, against what any way of asking must take on average.

Without wrong answers a look tells one bit at most. With a share of them wrong it tells what a
channel of such errors carries, and the last answers must confirm what leads (Burnashev's law).
"""

import math
import statistics

from .person import ENOUGH
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


def play(request):
    drawn, odd = _names(request), []
    heading(
        f"Yes and no, {len(drawn)} faults, each look the one that tells most next",
        *("wrong answers", "true class first", "looks: mean, 90th percentile, most"),
        *("behind the first, mean", "bound", "ratio", "choosing: median, 90th percentile"),
    )
    for errors in request.errors:
        found = [
            sit(name, False, errors, request.seed + number, request.is_fewest)
            for number, name in enumerate(drawn)
        ]
        behind = statistics.mean(one.looks - 1 for one in found)
        bound = fewest_looks(statistics.mean(one.bits for one in found), errors)
        row(
            f"{errors:.0%}",
            share(sum(one.is_first for one in found), len(found)),
            spread([one.looks for one in found]),
            f"{behind:.1f}",
            f"{bound:.1f}",
            f"{behind / bound:.2f}",
            milliseconds([choice_s for one in found for choice_s in one.next_s]),
        )
        odd += [f"{one.name} at {errors:.0%}" for one in found if not one.is_first]
    names(odd)


def _names(request):
    """Return the faults, as often as each is common: so the bound holds on average."""
    if request.is_every:
        return request.drawn(USUAL)
    return request.drawn_by_weight(USUAL)
