"""Which look to ask next so that no single slip decides which class of causes comes first. Pure.

Each word that eyes said is turned round in thought. Where the class that leads would then be in
doubt, something must confirm it: a look that was not asked yet, or one that was, once more. It is
the one that tells most of all these doubts at once. A class is what no answer tells apart, given or
still to come; and then what no answer still to come does, for regions may have told more already.
"""

import math
from collections.abc import Hashable, Iterable, Iterator, Mapping, Sequence

from termprobe.diagnosis.accounts import Account, Case
from termprobe.diagnosis.causes import Cause
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.look_outlooks import Candidate, Outlook, looks_with_outlooks
from termprobe.diagnosis.next_look import gain_of
from termprobe.diagnosis.pivotal import (
    WeighedCause,
    looked_at_by_eyes,
    turned,
    weighed_causes,
)
from termprobe.plan.model import Step
from termprobe.verdict.model import RunVerdict

SAFE = 0.7
"""A class that would still be so probable is in no doubt. The less is safe, the more looks are
asked; with 0.6 a lie was found that changed the final class."""
LEAST_SHARE = 1e-3
"""Causes less probable than this in a doubt are left out of it."""
LEADS, OTHER = "leads", "other"

Outlooks = Mapping[str, Mapping[str, Outlook]]
"""By the id of a step and the name of a cause."""


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
    as_common = [_as_common(one, dictionary) for one in weighed]
    candidates = [
        Candidate(one.name, one.block, share) for one, share in zip(causes, shares, strict=True)
    ]
    steps = list(looks_with_outlooks(case, candidates, verdict, dictionary))
    outlooks = {step.id: of_causes for step, of_causes in steps}
    to_come = [_to_come(one, outlooks) for one in causes]
    of_answers = [(one.of_class, still) for one, still in zip(weighed, to_come, strict=True)]
    doubts: list[list[Candidate]] = []
    for classes in (of_answers, to_come):
        leads = _leading(classes, shares)
        doubts += _doubts(case, as_common, healthy, [one == leads for one in classes])
    worth = {step.id: _worth(case, step, doubts, of_causes, is_fewest) for step, of_causes in steps}
    best = max(worth, key=lambda step: worth[step], default=None)
    if best is None or not worth[best]:
        return None
    return best


def _worth(
    case: Case,
    step: Step,
    doubts: Iterable[Sequence[Candidate]],
    outlooks: Mapping[str, Outlook],
    is_fewest: bool,
) -> float:
    """Return what `step` tells of all doubts, whether the class that leads is the right one."""
    return sum(gain_of(case, step, doubt, outlooks, is_fewest).of_blocks for doubt in doubts)


def _as_common(one: WeighedCause, dictionary: FaultDictionary) -> WeighedCause:
    """Return a cause with the odds it would have if all listed faults were equally common.

    Else one lie could let a common fault lead so far that a rare one is asked about no more.
    """
    cause = one.account.cause
    if cause.name not in dictionary.faults:
        return one
    return one._replace(odds=one.odds - math.log(cause.weight))


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
) -> Iterator[list[Candidate]]:
    """Yield how probable the causes are, for each word which turned round puts them in doubt.

    The word is as likely as its opposite then: where the opposite leaves little open, what is to be
    told is which of the two it was.
    """
    as_said = _shares([one.odds for one in weighed])
    for one in looked_at_by_eyes(case):
        for odds in turned(one, weighed, healthy):
            shares = _shares(odds)
            if _share_of(are_leading, shares) < SAFE:
                halves = [
                    (said + not_said) / 2 for said, not_said in zip(as_said, shares, strict=True)
                ]
                yield _doubt(weighed, are_leading, halves)


def _share_of(are_leading: Sequence[bool], shares: Sequence[float]) -> float:
    """Return how probable the leading class is."""
    pairs = zip(shares, are_leading, strict=True)
    return sum(share for share, is_leading in pairs if is_leading)


def _doubt(
    weighed: Sequence[WeighedCause], are_leading: Sequence[bool], shares: Sequence[float]
) -> list[Candidate]:
    """Return the causes, those of the leading class in one block and all others in another."""
    return [
        Candidate(one.account.cause.name, LEADS if is_leading else OTHER, share)
        for one, is_leading, share in zip(weighed, are_leading, shares, strict=True)
        if share >= LEAST_SHARE
    ]
