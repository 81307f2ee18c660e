"""What may be answered to a look of which pictures are offered: right, one of them, or none."""

from collections.abc import Hashable, Mapping

from termprobe.diagnosis.error_rates import ErrorRates
from termprobe.diagnosis.shown import Sight

MOST_PICTURES = 8
PASSED, NO_PICTURE = "as expected", "none of them"


def outlooks_of_pictures(
    sights: Mapping[str, Sight], shares: Mapping[str, float], cells: int, rates: ErrorRates
) -> dict[str, Mapping[Hashable, float]]:
    """Return by each cause every answer that may come, with its probability.

    `sights` tells how the look differs by each cause on a screen of `cells`, `shares` how probable
    the cause is.
    """
    offered = offered_of(sights, shares)
    alike = {sight: _outlook(sight, offered, cells, rates) for sight in set(sights.values())}
    return {name: alike[sight] for name, sight in sights.items()}


def offered_of(sights: Mapping[str, Sight], shares: Mapping[str, float]) -> frozenset[str]:
    """Return the most probable pictures that differ, of causes that are possible at all."""
    weights: dict[str, float] = {}
    for name, sight in sights.items():
        if sight.picture and shares[name]:
            weights[sight.picture] = weights.get(sight.picture, 0.0) + shares[name]
    ranked = sorted(weights, key=lambda picture: -weights[picture])
    return frozenset(ranked[:MOST_PICTURES])


def _outlook(
    sight: Sight, offered: frozenset[str], cells: int, rates: ErrorRates
) -> Mapping[Hashable, float]:
    if not sight.picture:
        return {PASSED: 1 - rates.false_alarm, NO_PICTURE: rates.false_alarm}
    missed = rates.miss(sight, cells)
    right, wrong = sight.picture, NO_PICTURE
    if sight.picture not in offered:
        right, wrong = NO_PICTURE, "another"
    seen = (1 - missed) * (1 - rates.wrong_picture)
    return {PASSED: missed, right: seen, wrong: (1 - missed) * rates.wrong_picture}
