"""How few looks tell the class of a fault where no answer is wrong: the best look halves the rest.

The faults are taken as often as they are thought to be common, and each look that shows one as the
first of them.
"""

import math
import statistics
from collections import Counter

from termprobe.diagnosis.causes import weight_of

from . import stage
from .person import ENOUGH


def show_halving():
    """Print how many looks that takes, and how many bits the first look leaves."""
    patterns = _patterns()
    numbers = range(len(stage.dictionary().looks))
    starts = [(number, [one for one in patterns.items() if one[0][number]]) for number in numbers]
    starts = [(number, left) for number, left in starts if left]
    weights = [sum(weight / sum(shown) for shown, weight in left) for _, left in starts]
    depth = statistics.fmean([looks_to_tell(left) for _, left in starts], weights)
    bits = statistics.fmean([_entropy(left) for _, left in starts], weights)
    print(
        f"\nBy no wrong answer and the look that halves best, behind the first: {depth:.1f} looks "
        f"for {bits:.1f} bits, {depth / bits:.2f} for each; {len(patterns)} classes"
    )


def _patterns():
    """Return the weight of all faults that the same looks show, by what these are."""
    found = Counter()
    for name in stage.detectable():
        alone = stage.dictionary().faults[name].alone
        found[tuple(bool(sight.picture) for sight in alone)] += weight_of(name).weight
    return found


def looks_to_tell(left):
    """Return the looks until one of the (pattern, weight) that are left has enough, on average."""
    total = sum(weight for _, weight in left)
    if max(weight for _, weight in left) >= ENOUGH * total:
        return 0.0
    parts = [_parted(left, number) for number in range(len(left[0][0]))]
    halves = min((part for part in parts if all(part)), key=_unevenness)
    shares = [sum(weight for _, weight in half) / total for half in halves]
    return 1 + sum(share * looks_to_tell(half) for share, half in zip(shares, halves, strict=True))


def _parted(left, number):
    return (
        [one for one in left if one[0][number]],
        [one for one in left if not one[0][number]],
    )


def _unevenness(halves):
    shown, hidden = (sum(weight for _, weight in half) for half in halves)
    return abs(shown - hidden)


def _entropy(left):
    total = sum(weight for _, weight in left)
    return -sum(weight / total * math.log2(weight / total) for _, weight in left)
