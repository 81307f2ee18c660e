"""How often errors may happen at most, by how many were seen."""

from math import exp, lgamma, log, log1p, sqrt

CONFIDENCE = 0.95
MOST_EXACT = 1000
"""Up to so many errors the bound is exact."""
_STEPS = 100
_ONE_SIDED = 1.6448536269514722
"""Of the normal distribution, 95 % lie below; tables of it."""


def upper_bound(errors: int, tried: int) -> float:
    """Return the rate of errors, 0 to 1, that is exceeded with a chance of 5 % at most.

    It is the upper limit of Clopper and Pearson's interval, one-sided: the rate at which no more
    than `errors` in `tried` would be seen in 5 % of all cases. Of none in N it is 3/N but for a
    little, the rule of three. Of more than a thousand errors it is Wilson's limit, which is then
    the same to a few parts in a hundred. 1 where nothing was tried.
    """
    if tried <= errors:
        return 1.0
    if errors > MOST_EXACT:
        return _wilson(errors, tried)
    low, high = 0.0, 1.0
    for _ in range(_STEPS):
        middle = (low + high) / 2
        if _chance_of_no_more(errors, tried, middle) > 1 - CONFIDENCE:
            low = middle
        else:
            high = middle
    return high


def _chance_of_no_more(errors: int, tried: int, rate: float) -> float:
    """Return the chance of `errors` or fewer in `tried`, each with the chance `rate`."""
    if rate in (0.0, 1.0):
        return 1.0 - rate
    all_ways = lgamma(tried + 1)
    logs = [
        all_ways
        - lgamma(count + 1)
        - lgamma(tried - count + 1)
        + count * log(rate)
        + (tried - count) * log1p(-rate)
        for count in range(errors + 1)
    ]
    most = max(logs)
    return exp(most) * sum(exp(each - most) for each in logs)


def _wilson(errors: int, tried: int) -> float:
    share, square = errors / tried, _ONE_SIDED**2
    middle = share + square / (2 * tried)
    spread = _ONE_SIDED * sqrt(share * (1 - share) / tried + square / (4 * tried**2))
    return min((middle + spread) / (1 + square / tried), 1.0)
