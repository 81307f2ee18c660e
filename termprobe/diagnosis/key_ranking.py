"""How probable each class of hypotheses is after the presses so far; people may have slipped."""

import math
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from termprobe.diagnosis.key_hypothesis import Hypothesis
from termprobe.diagnosis.key_outcomes import Outcome, Predicted
from termprobe.diagnosis.key_table import KeyTable

SLIP = 0.03
"""Share of presses in which something else comes than the fault predicts: a person presses the
wrong key, a contact is dirty."""
ANYTHING = 1 / 200
"""How likely one particular wrong outcome is then."""
NONE_PREDICTED = math.log(SLIP * ANYTHING)

Outcomes = Mapping[str, Sequence[Outcome]]
"""Press id -> the outcome of each time that it was made, as it is compared."""


class Ranked(NamedTuple):
    """A class of hypotheses that the presses so far cannot tell apart."""

    probability: float
    members: tuple[Hypothesis, ...]
    """The most common first."""


def ranked(table: KeyTable, came: Outcomes) -> list[Ranked]:
    """Return every class and the probability that one of its members is the cause, best first."""
    classes, gains = table.classes(came.keys()), _gains(table, came)
    scores = [math.log(one.weight) + sum(map(gains.__getitem__, one.changes)) for one in classes]
    found = [
        Ranked(probability, one.members)
        for probability, one in zip(probabilities(scores), classes, strict=True)
    ]
    return sorted(found, key=lambda one: -one.probability)


def probabilities(scores: Sequence[float]) -> list[float]:
    """Return the probability of each of what excludes one another, of their log-odds."""
    best = max(scores)
    shares = [math.exp(score - best) for score in scores]
    total = sum(shares)
    return [share / total for share in shares]


def _gains(table: KeyTable, came: Outcomes) -> list[float]:
    """Return for each change how far it lifts the log-likelihood above a healthy keyboard's."""
    normal = {
        press: log_likelihood(table.healthy.sends[press], heard) for press, heard in came.items()
    }
    gains = [0.0] * len(table.changes)
    for number, (press, predicted) in enumerate(table.changes):
        if press in came:
            gains[number] = log_likelihood(predicted, came[press]) - normal[press]
    return gains


def log_likelihood(predicted: Predicted, heard: Sequence[Outcome]) -> float:
    """Return the log-likelihood of what was heard of a press, of which `predicted` may come."""
    return sum(_log_share(predicted, outcome) for outcome in heard)


def _log_share(predicted: Predicted, outcome: Outcome) -> float:
    count = outcome.count_in(predicted)
    if not count:
        return NONE_PREDICTED
    return math.log((1 - SLIP) * count / len(predicted) + SLIP * ANYTHING)
