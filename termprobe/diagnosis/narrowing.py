"""Which regions of a screen to ask about once it is said to differ. Pure.

An answer costs a second and nothing is sent for it. The first question is the one that tells most;
the next one depends on its answer. That the cause is none of those that are known is weighed as
well, so that one which leads is put to the test.
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from termprobe.diagnosis.accounts import Account, Case, score
from termprobe.diagnosis.answers import (
    LookAnswer,
    done_to_board,
    evidence_of,
    readings_so_far,
)
from termprobe.diagnosis.diagnose import all_accounts
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.error_rates import ErrorRates
from termprobe.diagnosis.eye_fits import chance_in
from termprobe.diagnosis.key_ranking import probabilities
from termprobe.diagnosis.regions import regions_of
from termprobe.diagnosis.shown import Sight, wanted_of
from termprobe.journal.records import Answer, Answered, Record
from termprobe.plan.model import Look, Plan
from termprobe.profile.model import Profile
from termprobe.terminal.predicted import RegionAsked
from termprobe.verdict.model import RunVerdict

MOST_QUESTIONS = 2
"""So many regions are asked about behind one look. A third one told a fifth of what the first did.
"""
LEAST_BITS = 0.08
"""A question that is expected to tell less is not worth a key."""
OTHER_CAUSE = 0.1
"""How probable it is thought that no cause which is known is the right one. Then each region is
touched or not, as likely. A judgement."""


class LookedAt(NamedTuple):
    """A look that is said to differ, and what may be the cause."""

    case: Case
    """With that answer, the last of its observations."""
    ranked: Sequence[tuple[float, Account]]
    """(probability, cause), the most probable first."""


class _Lead(NamedTuple):
    """Causes by which the same regions are touched."""

    share: float
    chances: tuple[float, ...]
    """Of each region, that something in it is said to be wrong."""


def looked_at(
    profile: Profile,
    plan: Plan,
    records: Sequence[Record],
    verdict: RunVerdict,
    dictionary: FaultDictionary,
    look: Look,
) -> LookedAt:
    """Return what may be the cause where `look`, which has just been sent, differs.

    `records` and `verdict` are those of the run so far. The screen of `look` must be known.
    """
    assert look.expected is not None
    wanted = wanted_of(look.expected, look.asks_dots)
    before = readings_so_far(plan, records, look)
    asked = LookAnswer(
        look.id, False, wanted, plan.columns, before=before, moment=done_to_board(records)
    )
    others = [one for one in evidence_of(plan, records, verdict) if one.step_id != look.id]
    answered = [*records, Answered(look.id, Answer())]
    case = Case(profile, plan, answered, (*others, asked), {})
    healthy = case.of_nothing()
    everyone = [healthy, *all_accounts(case, healthy, dictionary)]
    shares = probabilities([score(one, healthy) for one in everyone])
    ranked = sorted(zip(shares, everyone, strict=True), key=lambda pair: -pair[0])
    return LookedAt(case, ranked)


def region_to_ask(found: LookedAt, look: str, dictionary: FaultDictionary) -> RegionAsked | None:
    """Return the region to ask about where the look of this id differs; None where none tells."""
    plan, number = found.case.plan, dictionary.looks.index(look)
    known = {**dictionary.faults, found.case.of_nothing().cause.name: dictionary.good}
    sights: dict[Sight, float] = {}
    for share, account in found.ranked:
        if account.cause.name in known:
            sight = known[account.cause.name].alone[number]
            sights[sight] = sights.get(sight, 0.0) + share
    cells = plan.rows * plan.columns
    words = regions_of(plan.rows, plan.columns)
    leads = _leads(sights, len(words), cells, found.case.rates)
    return _best(leads, words, MOST_QUESTIONS)


def _leads(
    sights: Mapping[Sight, float], regions: int, cells: int, rates: ErrorRates
) -> list[_Lead]:
    """Return the causes by what may be said of regions; their shares sum to 1."""
    merged: dict[tuple[float, ...], float] = {}
    for sight, share in sights.items():
        chances = tuple(chance_in(number, sight, cells, rates) for number in range(regions))
        merged[chances] = merged.get(chances, 0.0) + share
    total = sum(merged.values()) or 1.0
    of_known = (1 - OTHER_CAUSE) / total
    leads = [_Lead(share * of_known, chances) for chances, share in merged.items()]
    return [*leads, _Lead(OTHER_CAUSE, (0.5,) * regions)]


def _best(leads: Sequence[_Lead], words: Sequence[str], left: int) -> RegionAsked | None:
    """Return the question that tells most, with those behind it; `left` are asked at most."""
    if not left:
        return None
    gains = [_gain(leads, number) for number in range(len(words))]
    number = max(range(len(words)), key=lambda one: gains[one])
    if gains[number] < LEAST_BITS:
        return None
    return RegionAsked(
        words[number],
        if_wrong=_best(_after(leads, number, True), words, left - 1),
        if_right=_best(_after(leads, number, False), words, left - 1),
    )


def _after(leads: Iterable[_Lead], number: int, is_wrong: bool) -> list[_Lead]:
    """Return the causes once it was said whether the region of this number is wrong."""
    found = []
    for share, chances in leads:
        chance = chances[number]
        if not is_wrong:
            chance = 1 - chance
        kept = (*chances[:number], float(is_wrong), *chances[number + 1 :])
        found.append(_Lead(share * chance, kept))
    total = sum(one.share for one in found)
    return [one._replace(share=one.share / total) for one in found]


def _gain(leads: Iterable[_Lead], number: int) -> float:
    """Return how many bits the answer to the region of this number is expected to tell."""
    mixed = known = 0.0
    for share, chances in leads:
        mixed += share * chances[number]
        known += share * _entropy(chances[number])
    return _entropy(mixed) - known


def _entropy(chance: float) -> float:
    """Return the entropy of a yes-or-no answer in bits."""
    if chance <= 0 or chance >= 1:
        return 0.0
    return -chance * math.log2(chance) - (1 - chance) * math.log2(1 - chance)
