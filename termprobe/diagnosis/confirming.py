"""Which look to ask next so that no single slip decides which class of causes comes first. Pure.

Each word that eyes said is turned round in thought. Where the class that leads would then be in
doubt, something must confirm it: a look that was not asked yet, or one that was, once more. It is
the one that closes most of all these doubts at once. A class is what no answer tells apart, given
or still to come; and then what no answer still to come does: regions may have told more already.
"""

import math
import operator
from collections import Counter
from collections.abc import Hashable, Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from termprobe.diagnosis.accounts import Account, Case
from termprobe.diagnosis.causes import Cause
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.look_outlooks import (
    Candidate,
    Outlook,
    looks_with_outlooks,
    of_several,
)
from termprobe.diagnosis.next_look import effort_of
from termprobe.diagnosis.pivotal import (
    WeighedCause,
    looked_at_by_eyes,
    turned,
    weighed_causes,
)
from termprobe.verdict.model import RunVerdict

SAFE = 0.5
"""A class that would still be so probable is in no doubt. The less is safe, the more looks are
asked."""
CROWD = 0.3
"""In a doubt a class of N faults weighs as N ** (1 - CROWD) of them. With 0, lies were found that
left a class of hundreds in front of one of three; with 1 none could, and yes and no took 6 looks to
confirm where it now takes 4."""
LEAST_SHARE = 1e-3
"""Causes less probable than this next to the others on their side of a doubt are left out of it."""
LEAST_CLOSED = 0.05
"""A look that is expected to do less for a doubt, in log-odds, does nothing for it. What lacks less
is as good as safe."""
NEVER = 1e-9
"""So probable at least is what no cause predicts."""

Outlooks = Mapping[str, Mapping[str, Outlook]]
"""By the id of a step and the name of a cause."""


class Doubt(NamedTuple):
    """What is thought of the causes where one word is the other one, and another class may lead."""

    leads: Sequence[Candidate]
    """The causes of the class that leads as things were said."""
    others: Sequence[Candidate]
    lacking: float
    """What that class lacks to be SAFE, in log-odds."""


def confirming_look(
    case: Case,
    healthy: Account,
    accounts: Sequence[Account],
    verdict: RunVerdict,
    dictionary: FaultDictionary | None,
    is_fewest: bool = False,
) -> str | None:
    """Return the id of the look that would confirm most.

    None is returned where nothing is in doubt, or no look tells anything of a doubt.
    """
    if dictionary is None:
        return None
    weighed = weighed_causes(healthy, accounts)
    causes = [one.account.cause for one in weighed]
    shares = _shares([one.odds for one in weighed])
    candidates = [
        Candidate(one.name, one.block, share) for one, share in zip(causes, shares, strict=True)
    ]
    steps = list(looks_with_outlooks(case, candidates, verdict, dictionary))
    outlooks = {step.id: of_causes for step, of_causes in steps}
    to_come = [_to_come(one, outlooks) for one in causes]
    of_answers = [(one.of_class, still) for one, still in zip(weighed, to_come, strict=True)]
    doubts: list[Doubt] = []
    for classes in (of_answers, to_come):
        leads = _leading(classes, shares)
        alike = _alike(weighed, classes, dictionary)
        doubts += _doubts(case, alike, healthy, [one == leads for one in classes])
    worth = {
        step.id: _closed_by(doubts, of_causes) / effort_of(case, step, is_fewest)
        for step, of_causes in steps
    }
    best = max(worth, key=lambda step: worth[step], default=None)
    if best is None or not worth[best]:
        return None
    return best


def closed(doubt: Doubt, outlooks: Mapping[str, Outlook]) -> float:
    """Return how much of what is lacking an answer is expected to close, if the leading is right.

    What an answer would do beyond that is of no use to this doubt.
    """
    if not outlooks:
        return 0.0
    by_leads, by_others = _said(doubt.leads, outlooks), _said(doubt.others, outlooks)
    expected = sum(
        chance * min(math.log(chance / max(by_others.get(answer, 0.0), NEVER)), doubt.lacking)
        for answer, chance in by_leads.items()
        if chance
    )
    return expected if expected >= LEAST_CLOSED else 0.0


def _said(side: Iterable[Candidate], outlooks: Mapping[str, Outlook]) -> Outlook:
    """Return what may be answered if the right cause is one of these."""
    return of_several((one.probability, outlooks[one.name]) for one in side)


def _closed_by(doubts: Iterable[Doubt], outlooks: Mapping[str, Outlook]) -> float:
    """Return how much a look with these Outlooks is expected to close of all doubts."""
    return sum(closed(one, outlooks) for one in doubts)


def _alike(
    weighed: Sequence[WeighedCause], classes: Sequence[Hashable], dictionary: FaultDictionary
) -> list[WeighedCause]:
    """Return the causes with the odds they would have if listed faults were equally common.

    Else one lie could let a common fault lead so far that a rare one is asked about no more, or a
    class of very many faults one of few: see CROWD.
    """
    are_listed = [one.account.cause.name in dictionary.faults for one in weighed]
    pairs = zip(classes, are_listed, strict=True)
    counts = Counter(of_class for of_class, is_listed in pairs if is_listed)
    found = []
    for one, of_class, is_listed in zip(weighed, classes, are_listed, strict=True):
        if is_listed:
            crowd = CROWD * math.log(counts[of_class])
            one = one._replace(odds=one.odds - math.log(one.account.cause.weight) - crowd)
        found.append(one)
    return found


def _to_come(cause: Cause, outlooks: Outlooks) -> Hashable:
    """Return what is the same for causes that no answer still to come tells apart.

    It is the likeliest answer to each look: how surely it is given tells next to nothing.
    """
    return tuple(_likeliest(of_causes.get(cause.name, {})) for of_causes in outlooks.values())


def _likeliest(outlook: Outlook) -> Hashable:
    """Return the likeliest answer; None where nothing is known of a step."""
    return max(outlook, key=lambda answer: outlook[answer], default=None)


def _shares(odds: Sequence[float]) -> list[float]:
    """Return probabilities in proportion to log-odds; they sum to 1."""
    best = max(odds)
    weights = [math.exp(one - best) for one in odds]
    total = sum(weights)
    return [weight / total for weight in weights]


def _leading(classes: Sequence[Hashable], shares: Sequence[float]) -> Hashable:
    """Return the most probable class."""
    found: dict[Hashable, float] = {}
    for of_class, share in zip(classes, shares, strict=True):
        found[of_class] = found.get(of_class, 0.0) + share
    return max(found, key=lambda of_class: found[of_class])


def _doubts(
    case: Case, weighed: Sequence[WeighedCause], healthy: Account, are_leading: Sequence[bool]
) -> Iterator[Doubt]:
    """Yield a Doubt for each word by whose opposite the leading class is not SAFE."""
    for one in looked_at_by_eyes(case):
        for odds in turned(one, weighed, healthy):
            shares = _shares(odds)
            pairs = zip(shares, are_leading, strict=True)
            of_leading = sum(share for share, is_leading in pairs if is_leading)
            if of_leading < SAFE:
                leads = _counted(weighed, shares, are_leading)
                others = _counted(weighed, shares, map(operator.not_, are_leading))
                yield Doubt(leads, others, _log_odds(SAFE) - _log_odds(of_leading))


def _counted(
    weighed: Sequence[WeighedCause], shares: Sequence[float], are_meant: Iterable[bool]
) -> list[Candidate]:
    """Return the causes that are meant, as far as they count next to each other."""
    found = [
        Candidate(one.account.cause.name, one.account.cause.block, share)
        for one, share, is_meant in zip(weighed, shares, are_meant, strict=True)
        if is_meant
    ]
    least = LEAST_SHARE * sum(one.probability for one in found)
    return [one for one in found if one.probability >= least]


def _log_odds(share: float) -> float:
    return math.log(max(share, NEVER) / (1 - share))
