"""How well what a cause predicts fits the words of eyes: yes or no, a picture, regions."""

import math
from collections.abc import Callable, Hashable
from typing import NamedTuple

from termprobe.diagnosis.answers import LookAnswer
from termprobe.diagnosis.error_rates import ErrorRates
from termprobe.diagnosis.picked import Picked
from termprobe.diagnosis.regions import numbers_of
from termprobe.diagnosis.shown import Sight

NOT_KNOWN = 0.5
"""The chance of a yes to what nothing is known of."""


class Fit(NamedTuple):
    """How a cause accounts for one answer."""

    log_likelihood: float
    told: Hashable
    """What it predicts, as far as such an answer can tell."""
    is_as_predicted: bool
    flipped: tuple[float, ...] = ()
    """The log-likelihood where each of the words that eyes said was the other one; none where
    nothing was said by eyes."""
    regions: tuple[bool, ...] = ()
    """Of each region that was asked about, whether what was said is as predicted."""


def yes_or_no(answer: LookAnswer, sight: Sight, rates: ErrorRates) -> Fit:
    """Return the Fit of what eyes said: as-expected, or differs with a picture and regions."""
    shows = bool(sight.picture)
    noticed = rates.false_alarm
    if shows:
        noticed = 1 - rates.miss(sight, len(answer.wanted.codes))
    passed, differs = math.log(1 - noticed), math.log(noticed)
    if answer.has_passed:
        return Fit(passed, shows, not shows, (differs,))
    fit = Fit(differs, shows, shows, (passed,))
    if answer.picked is not None:
        fit = _with_picture(fit, answer.picked, sight, rates)
    if answer.regions:
        fit = _with_regions(fit, answer, sight, rates)
    return fit


def _with_picture(fit: Fit, picked: Picked, sight: Sight, rates: ErrorRates) -> Fit:
    """Return `fit` with the choice of a picture; turned round, nothing is known of it."""
    is_chosen = picked.is_of(sight.picture)
    return Fit(
        fit.log_likelihood + picked.log_likelihood(sight.picture, rates),
        (fit.told, is_chosen),
        fit.is_as_predicted and is_chosen,
        (*fit.flipped, fit.log_likelihood),
    )


def _with_regions(fit: Fit, answer: LookAnswer, sight: Sight, rates: ErrorRates) -> Fit:
    """Return `fit` with what was said of regions."""
    cells = len(answer.wanted.codes)
    numbers = numbers_of(cells // answer.columns, answer.columns)
    asked = [numbers.get(region) for region, _ in answer.regions]
    chances = [chance_in(number, sight, cells, rates) for number in asked]
    said = [
        _as_said(chance, word) for chance, (_, word) in zip(chances, answer.regions, strict=True)
    ]
    whole = fit.log_likelihood + sum(map(math.log, said))
    touched = tuple(chance > 0.5 for chance in chances)
    return fit._replace(
        log_likelihood=whole,
        told=(fit.told, touched),
        flipped=(*fit.flipped, *(whole - math.log(one) + math.log(1 - one) for one in said)),
        regions=tuple(one >= 0.5 for one in said),
    )


def _as_said(chance: float, word: bool) -> float:
    """Return the chance of what was said, by that of yes."""
    return chance if word else 1 - chance


def chance_in(number: int | None, sight: Sight, cells: int, rates: ErrorRates) -> float:
    """Return how probable it is that something wrong is seen in the region of this number.

    The number is None of a region that this version does not know.
    """
    if number is None or sight.where is None:
        return NOT_KNOWN
    if sight.where >> number & 1:
        return 1 - rates.miss(sight, cells)
    return rates.false_alarm


def over_readings(
    answer: LookAnswer, rates: ErrorRates, fit_of: Callable[[LookAnswer, ErrorRates], Fit]
) -> Fit:
    """Return the Fit of all readings of one screen, each by `fit_of`; the last says what is told.

    Who looks once more looks closely, and says the same again for no reason in a share of all
    cases.
    """
    if not answer.before:
        return fit_of(answer, rates)
    first, *others = answer.readings
    closely = rates.once_more()
    fits = [fit_of(first, rates), *(fit_of(one, closely) for one in others)]
    last = fits[-1]
    chances = [fits[0].log_likelihood]
    for number in range(1, len(fits)):
        repeated = rates.same_again * (answer.readings[number].is_as(answer.readings[number - 1]))
        fresh = (1 - rates.same_again) * math.exp(fits[number].log_likelihood)
        chances.append(math.log(repeated + fresh))
    whole = sum(chances)
    return last._replace(
        log_likelihood=whole,
        is_as_predicted=2 * sum(fit.is_as_predicted for fit in fits) >= len(fits),
        regions=tuple(is_right for fit in fits for is_right in fit.regions),
        flipped=tuple(
            whole - chance + flipped
            for chance, fit in zip(chances, fits, strict=True)
            for flipped in fit.flipped
        ),
    )
