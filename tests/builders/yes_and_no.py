"""Yes and no: looks to the true class, against what any way of asking must take on average.

What is counted goes until a class is sure. The looks behind that, at those on which it hangs, stand
beside it: they are what it costs that no single wrong answer decides. Where the builder is asked of
regions too, a look has several answers, and each costs a second and no sending.

Without wrong answers a look tells one bit at most. With a share of them wrong it tells what a
channel of such errors carries, and the last answers must confirm what leads (Burnashev's law). Who
reckons with wrong answers needs as many looks although none is wrong: the second bound. What the
looks of the script can tell at all, asked in the best order, stands below (halving.py).
"""

import itertools
import math
import statistics

from termprobe.diagnosis.error_rates import USUAL_RATES, ErrorRates

from . import stage
from .halving import fewest, yes_or_no
from .person import ENOUGH, REGIONS, YES_OR_NO
from .sitting import sit
from .tables import heading, milliseconds, names, row, share, spread

USUAL = 40


def fewest_looks(bits, miss, false_alarm):
    """Return how many looks that many bits take on average, of whose answers such shares are wrong.

    By none wrong a look tells one bit; else what a channel of such errors carries, and what leads
    must be confirmed.
    """
    if not miss and not false_alarm:
        return bits
    answers = (1 - miss, miss), (false_alarm, 1 - false_alarm)
    confirming = math.log2(1 / (1 - ENOUGH)) / max(_apart(*answers), _apart(*answers[::-1]))
    return bits / _capacity(*answers) + confirming


STEPS = 1000


def _capacity(shown, hidden):
    """Return the bits that one answer carries at most, however often looks differ.

    Both are the chances of yes and of no, where a look differs and where it does not.
    """
    return max(_carried(number / STEPS, shown, hidden) for number in range(1, STEPS))


def _carried(share, shown, hidden):
    """Return the bits that an answer carries where such a share of looks differs."""
    mixed = [share * one + (1 - share) * other for one, other in zip(shown, hidden, strict=True)]
    return share * _apart(shown, mixed) + (1 - share) * _apart(hidden, mixed)


def _apart(first, second):
    """Return the divergence of Kullback and Leibler, in bits."""
    pairs = zip(first, second, strict=True)
    return sum(one * math.log2(one / other) for one, other in pairs if one)


LEAST_ERRORS = 0.001
"""No answer is impossible: of a builder who is never wrong this is thought."""


def all_alike(errors):
    """Return the rates of a builder whose every answer is wrong as easily, asked once more too."""
    share = max(errors, LEAST_ERRORS)
    return ErrorRates(*[share] * 5, same_again=0.0, missed_again=1.0)


def play(request):
    drawn, odd = _names(request), []
    heading(
        f"Yes and no, {len(drawn)} faults, each look the one that tells most next",
        *("said", "wrong answers", "thought of them", "true class first", "stated"),
        *("looks until sure: mean, 90 %, most", "behind the first, mean"),
        *("bound by the wrong answers, ratio", "bound by what is thought, ratio"),
        *("looks to confirm, mean", "answers of all looks, mean", "choosing: median, 90 %"),
    )
    for says, errors in itertools.product((YES_OR_NO, REGIONS), request.errors):
        for words, rates in (("what is usual", USUAL_RATES), ("just that", all_alike(errors))):
            found = [
                sit(name, says, errors, request.seed + number, request.is_fewest, rates)
                for number, name in enumerate(drawn)
            ]
            _show(says, errors, (words, rates), found)
            odd += [f"{one.name} at {errors:.0%}, {says}" for one in found if not one.is_first]
    names(odd)
    best = fewest(yes_or_no, bool)
    print(f"In the best order, no answer wrong, behind the first: {best.looks:.1f} looks", end="")
    print(f" for {best.bits:.1f} bits, {best.looks / best.bits:.2f} for each")


def _show(says, errors, thought, found):
    words, rates = thought
    behind = statistics.mean(one.looks - one.confirming - one.begun for one in found)
    bits = statistics.mean(one.bits for one in found)
    by_errors = fewest_looks(bits, errors, errors)
    by_thought = fewest_looks(bits, _mean_miss(rates), rates.false_alarm)
    row(
        *(says, f"{errors:.0%}", words),
        share(sum(one.is_first for one in found), len(found)),
        f"{statistics.mean(one.stated for one in found):.1%}",
        spread([one.looks - one.confirming for one in found]),
        f"{behind:.1f}",
        *(f"{bound:.1f}, {behind / bound:.2f}" for bound in (by_errors, by_thought)),
        f"{statistics.mean(one.confirming for one in found):.1f}",
        f"{statistics.mean(one.answers for one in found):.1f}",
        milliseconds([choice_s for one in found for choice_s in one.next_s]),
    )


def _mean_miss(rates):
    """Return how often a look that shows a fault is missed, by `rates`: the mean of all these."""
    cells = stage.plan().rows * stage.plan().columns
    shown = [
        sight for name in stage.detectable() for sight in stage.dictionary().faults[name].alone
    ]
    return statistics.mean(rates.miss(sight, cells) for sight in shown if sight.picture)


def _names(request):
    """Return the faults, as often as each is common: so the bound holds on average."""
    if request.is_every:
        return request.drawn(USUAL)
    return request.drawn_by_weight(USUAL)
