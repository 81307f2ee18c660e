"""Answers on which the cause hangs: were one of them a slip, another class would come first. Pure.

Such a look is asked once more before a class is concluded, so that no single slip decides.
"""

import math
from collections.abc import Hashable, Iterator, Sequence
from typing import NamedTuple

from termprobe.diagnosis.accounts import Account, Case, score
from termprobe.diagnosis.answers import LookAnswer
from termprobe.diagnosis.eye_fits import Fit
from termprobe.diagnosis.ranking import departures
from termprobe.diagnosis.readings import last_readings

WITHIN = 12.0
"""Causes that stand so far behind the best, in log-odds, come first by no single slip."""


class WeighedCause(NamedTuple):
    """A cause that may come first."""

    account: Account
    odds: float
    """Its logarithm."""
    of_class: Hashable
    """The same for all that the answers cannot tell apart."""


def pivotal_looks(case: Case, healthy: Account, accounts: Sequence[Account]) -> tuple[str, ...]:
    """Return the ids of the looks to be asked once more, that on which most hangs first.

    `accounts` are those of all causes; `healthy` is that of a good board.
    """
    weighed = weighed_causes(healthy, accounts)
    first = _first(weighed, [one.odds for one in weighed])
    asked = last_readings(case)
    swings = {
        one.step_id: _swing(one, weighed, healthy, first)
        for one in looked_at_by_eyes(case)
        if one.step_id in asked
    }
    found = [step for step, swing in swings.items() if swing > 0]
    return tuple(sorted(found, key=lambda step: -swings[step]))


def weighed_causes(healthy: Account, accounts: Sequence[Account]) -> list[WeighedCause]:
    """Return the causes that may come first, that of a good board among them."""
    scored = [(one, score(one, healthy)) for one in (healthy, *accounts)]
    least = max(odds for _, odds in scored) - WITHIN
    return [
        WeighedCause(one, odds, departures(one, healthy)) for one, odds in scored if odds >= least
    ]


def _first(weighed: Sequence[WeighedCause], odds: Sequence[float]) -> Hashable:
    """Return the most probable class where the causes have these log-odds."""
    shares = _shares(weighed, odds)
    return max(shares, key=lambda of_class: shares[of_class])


def _shares(weighed: Sequence[WeighedCause], odds: Sequence[float]) -> dict[Hashable, float]:
    """Return how probable each class is, next to the best cause."""
    best = max(odds)
    shares: dict[Hashable, float] = {}
    for one, of_one in zip(weighed, odds, strict=True):
        shares[one.of_class] = shares.get(one.of_class, 0.0) + math.exp(of_one - best)
    return shares


def looked_at_by_eyes(case: Case) -> Iterator[LookAnswer]:
    """Yield what eyes said of looks."""
    for one in case.observations:
        if isinstance(one, LookAnswer) and one.is_by_eyes:
            yield one


def _swing(
    one: LookAnswer, weighed: Sequence[WeighedCause], healthy: Account, first: Hashable
) -> float:
    """Return by how many log-odds another class comes before `first` once a word is turned round.

    It is that word of those said of the look which does most; 0 where none brings another class to
    the front.
    """
    worlds = turned(one, weighed, healthy)
    return max((_lead(odds, weighed, first) for odds in worlds), default=0.0)


def turned(
    one: LookAnswer, weighed: Sequence[WeighedCause], healthy: Account
) -> Iterator[Sequence[float]]:
    """Yield the log-odds of all causes where each word in turn was the other one.

    A word that stands in two readings of the screen is no single slip, and stays as it is.
    """
    of_look = [cause.account.fits.get(one.step_id, healthy.fits[one.step_id]) for cause in weighed]
    words = list(_words(one))
    for number, word in enumerate(words):
        if words.count(word) == 1:
            pairs = zip(weighed, of_look, strict=True)
            yield [cause.odds + _change(fit, number) for cause, fit in pairs]


def _words(one: LookAnswer) -> Iterator[tuple[str, Hashable]]:
    """Yield (of what, what was said) of all that eyes said of a look, in the order of `flipped`."""
    for reading in one.readings:
        yield "screen", reading.has_passed
        if reading.has_passed:
            continue
        if reading.picked is not None:
            yield "picture", reading.picked.picture
        yield from reading.regions
        if reading.marks is not None:
            yield "marks", tuple(reading.marks.items())


def _change(fit: Fit, number: int) -> float:
    """Return what it does to the log-likelihood that the word of this number is turned round."""
    if not fit.flipped:
        return 0.0
    return fit.flipped[min(number, len(fit.flipped) - 1)] - fit.log_likelihood


def _lead(odds: Sequence[float], weighed: Sequence[WeighedCause], first: Hashable) -> float:
    """Return by how many log-odds another class comes before `first`, 0 where it does not."""
    shares = _shares(weighed, odds)
    of_first = shares.pop(first)
    most = max(shares.values(), default=0.0)
    if most <= of_first:
        return 0.0
    return math.log(most) - math.log(max(of_first, 1e-300))
