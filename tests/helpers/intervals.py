"""Exact confidence intervals of a share: Clopper and Pearson's, by bisection."""

import math


def _at_least(count, of, share):
    """Return the probability of at least so many in `of` tries."""
    if share in (0.0, 1.0):
        return float(share >= 1.0 or not count)
    return sum(math.exp(_logarithm(tries, of, share)) for tries in range(count, of + 1))


def _logarithm(count, of, share):
    """Return the logarithm of the probability of just so many; none overflows, of however many."""
    ways = math.lgamma(of + 1) - math.lgamma(count + 1) - math.lgamma(of - count + 1)
    return ways + count * math.log(share) + (of - count) * math.log1p(-share)


def _solved(rises, wanted):
    """Return where the rising function of a share reaches `wanted`."""
    low, high = 0.0, 1.0
    for _ in range(60):
        middle = (low + high) / 2
        if rises(middle) < wanted:
            low = middle
        else:
            high = middle
    return low


def clopper_pearson(count, of, level=0.95):
    """Return the (lower, upper) bound of the share of which `count` in `of` were seen."""
    tail = (1 - level) / 2
    lower, upper = 0.0, 1.0
    if count:
        lower = _solved(lambda share: _at_least(count, of, share), tail)
    if count < of:
        upper = _solved(lambda share: _at_least(count + 1, of, share), 1 - tail)
    return lower, upper
