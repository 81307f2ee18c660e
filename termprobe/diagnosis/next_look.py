"""Which step would tell most of what a second of the builder's time can tell.

Blocks are told apart first, since it is a block that is probed; then the faults in them.
"""

import math
from collections.abc import Hashable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cache
from typing import NamedTuple

from termprobe.board.link import board_format
from termprobe.diagnosis.accounts import Case
from termprobe.diagnosis.answers import LookAnswer
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.fits import by_codes
from termprobe.diagnosis.picture_outlooks import outlooks_of_pictures
from termprobe.diagnosis.ranking import RankedClass
from termprobe.diagnosis.readings import last_readings, outlooks_again
from termprobe.diagnosis.shown import Sight
from termprobe.diagnosis.typed_outlooks import outlooks_of_typed
from termprobe.plan.effort import builder_s, sending_s
from termprobe.plan.model import Step, TypedBack
from termprobe.verdict.model import PASS, SKIPPED, UNANSWERED, UNSURE, Covered, RunVerdict

MOST_WEIGHED = 300
"""So many of the most probable causes are weighed."""
LEAST_WEIGHED = 1e-4
LEAST_BITS = 0.05
"""A step that is expected to tell less is not worth sending: what is left open then hangs on a look
that was answered before, and no other tells; that one is asked once more. With 0.01 instead, yes
and no needed four looks more and named the true class as often."""

Outlook = Mapping[Hashable, float]
"""Each answer that may come, with its probability."""
EITHER_WAY: Outlook = {True: 0.5, False: 0.5}
"""That of a look of which nothing is known."""


class Candidate(NamedTuple):
    """One cause that may be the right one."""

    name: str
    block: str
    probability: float


class Gain(NamedTuple):
    """What a step is expected to tell, in bits for each second."""

    of_blocks: float
    of_faults: float


def next_look(
    case: Case,
    found: Sequence[RankedClass],
    verdict: RunVerdict,
    dictionary: FaultDictionary | None,
    is_fewest: bool = False,
) -> str | None:
    """Return the id of the step that would tell most next; None where none would tell anything.

    It may be one that eyes have answered: to be asked once more. Where the fewest steps are wanted,
    and not the fewest seconds, `is_fewest`: each then counts the same, and all faults are told
    apart at once.
    """
    if dictionary is None:
        return None
    candidates = _candidates(found)
    gains = {
        step.id: gain_of(case, step, candidates, outlooks, is_fewest)
        for step, outlooks in looks_with_outlooks(case, candidates, verdict, dictionary)
    }
    for part in Gain._fields[is_fewest:]:
        best = max(gains, key=lambda step: getattr(gains[step], part), default=None)
        if best is not None and getattr(gains[best], part) > 0:
            return best
    return None


def _candidates(found: Sequence[RankedClass]) -> list[Candidate]:
    """Return the most probable causes; their probabilities sum to 1."""
    weighed = [
        Candidate(one.cause.name, one.cause.block, share)
        for of_class in found
        for share, one in zip(of_class.shares, of_class.members, strict=True)
        if share >= LEAST_WEIGHED
    ]
    weighed.sort(key=lambda one: -one.probability)
    kept = weighed[:MOST_WEIGHED]
    total = sum(one.probability for one in kept)
    return [one._replace(probability=one.probability / total) for one in kept]


def _open(verdict: RunVerdict) -> Iterator[str]:
    """Yield the ids of the steps that may still be asked, those that others cover among them."""
    for step in verdict.steps:
        is_covered = step.verdict == PASS and isinstance(step.because, Covered)
        if is_covered or step.verdict in (UNANSWERED, UNSURE, SKIPPED):
            yield step.id


def looks_with_outlooks(
    case: Case,
    candidates: Sequence[Candidate],
    verdict: RunVerdict,
    dictionary: FaultDictionary,
) -> Iterator[tuple[Step, Mapping[str, Outlook]]]:
    """Yield each step that may be asked, once more too, with the Outlook by each candidate."""
    steps = [case.plan.step(step) for step in _open(verdict)]
    last = last_readings(case)
    fresh = [step for step in steps if step.id not in last]
    yield from _fresh_outlooks(case, candidates, fresh, dictionary)
    closely = replace(case, rates=case.rates.once_more())
    again = [case.plan.step(look) for look in last]
    for step, outlooks in _fresh_outlooks(closely, candidates, again, dictionary):
        told = _of_screens_known(outlooks, step, dictionary)
        yield step, outlooks_again(told, last[step.id], case.rates.same_again)


def _of_screens_known(
    outlooks: Mapping[str, Outlook], look: Step, dictionary: FaultDictionary
) -> dict[str, Outlook]:
    """Return the Outlooks of a look that is sent to a screen on which it stands already.

    By a cause that lets earlier screens be seen nothing is known of yes and no then.
    """
    number = dictionary.looks.index(look.id)
    found = dict(outlooks)
    for name in found.keys() & dictionary.faults.keys():
        shown = dictionary.faults[name]
        is_open = shown.in_order[number] != shown.alone[number]
        if is_open and found[name].keys() == EITHER_WAY.keys():
            found[name] = EITHER_WAY
    return found


def _fresh_outlooks(
    case: Case, candidates: Sequence[Candidate], steps: Iterable[Step], dictionary: FaultDictionary
) -> Iterator[tuple[Step, Mapping[str, Outlook]]]:
    """Yield each step with the Outlook by each candidate, as if it was asked for the first time."""
    numbers = {look: number for number, look in enumerate(dictionary.looks)}
    looked = [one for one in case.observations if isinstance(one, LookAnswer)]
    is_read = any(one.codes for one in looked)
    are_offered = any(one.picked for one in looked)
    shares = {one.name: one.probability for one in candidates}
    cells = case.plan.rows * case.plan.columns
    for step in steps:
        if step.id in numbers:
            sights = _sights(candidates, numbers[step.id], dictionary)
            if looked and not any(one.sees_dots for one in looked):
                sights = {name: by_codes(sight) for name, sight in sights.items()}
            if is_read:
                yield step, _of_pictures_read(sights)
            elif are_offered:
                yield step, outlooks_of_pictures(sights, shares, cells, case.rates)
            else:
                yield step, {name: _yes_or_no(case, sight) for name, sight in sights.items()}
        elif isinstance(step, TypedBack):
            yield step, outlooks_of_typed(case, [one.name for one in candidates], step)


def _sights(
    candidates: Sequence[Candidate], number: int, dictionary: FaultDictionary
) -> dict[str, Sight]:
    """Return how one look differs by each candidate."""
    good = dictionary.good
    return {one.name: dictionary.faults.get(one.name, good).alone[number] for one in candidates}


def _of_pictures_read(sights: Mapping[str, Sight]) -> dict[str, Outlook]:
    """Return what is read by each cause: one Outlook for each picture."""
    certain: dict[str, Outlook] = {one.picture: {one.picture: 1.0} for one in sights.values()}
    return {name: certain[sight.picture] for name, sight in sights.items()}


def _yes_or_no(case: Case, sight: Sight) -> Outlook:
    cells = case.plan.rows * case.plan.columns
    if sight.picture:
        return _noticed(1 - case.rates.miss(sight, cells))
    return _noticed(case.rates.false_alarm)


@cache
def _noticed(share: float) -> Outlook:
    """Return the Outlook of a look that is said to differ with the probability `share`."""
    return {True: share, False: 1 - share}


def _seconds(case: Case, step: Step) -> float:
    """Return how long `step` takes."""
    return sending_s(step, board_format(case.profile).character_s) + builder_s(step)


def gain_of(
    case: Case,
    step: Step,
    candidates: Sequence[Candidate],
    outlooks: Mapping[str, Outlook],
    is_fewest: bool = False,
) -> Gain:
    """Return what `step` tells of the candidates, in bits for each second or, `is_fewest`, each."""
    seconds = 1.0 if is_fewest else _seconds(case, step)
    return _gain(candidates, outlooks, seconds)


def _gain(candidates: Sequence[Candidate], outlooks: Mapping[str, Outlook], seconds: float) -> Gain:
    """Return what a step is expected to tell for each of the `seconds` that it takes.

    Causes with one and the same Outlook are counted together: most have it with many others.
    """
    if not outlooks:
        return Gain(0.0, 0.0)
    of_blocks: dict[str, dict[int, float]] = {}
    known: dict[int, Outlook] = {}
    for one in candidates:
        outlook = outlooks[one.name]
        known[id(outlook)] = outlook
        shares = of_blocks.setdefault(one.block, {})
        shares[id(outlook)] = shares.get(id(outlook), 0.0) + one.probability
    blocks = [_parts(shares, known) for shares in of_blocks.values()]
    everyone = [part for parts in blocks for part in parts]
    entropies = {key: _entropy(outlook) for key, outlook in known.items()}
    whole = _entropy(_mixed(everyone))
    in_faults = sum(share * entropies[id(outlook)] for share, outlook in everyone)
    in_blocks = sum(_total(parts) * _entropy(_mixed(parts)) for parts in blocks)
    return Gain(_worth(whole - in_blocks, seconds), _worth(whole - in_faults, seconds))


def _parts(
    shares: Mapping[int, float], known: Mapping[int, Outlook]
) -> list[tuple[float, Outlook]]:
    return [(share, known[key]) for key, share in shares.items()]


def _total(parts: Iterable[tuple[float, Outlook]]) -> float:
    return sum(share for share, _ in parts)


def _worth(bits: float, seconds: float) -> float:
    """Return the bits for each second; none where they are too few."""
    return bits / max(seconds, 1.0) if bits >= LEAST_BITS else 0.0


def _mixed(parts: Iterable[tuple[float, Outlook]]) -> Outlook:
    """Return the Outlook of several, by how probable each is."""
    found: dict[Hashable, float] = {}
    total = 0.0
    for probability, outlook in parts:
        total += probability
        for answer, chance in outlook.items():
            found[answer] = found.get(answer, 0.0) + probability * chance
    return {answer: chance / total for answer, chance in found.items()}


def _entropy(outlook: Outlook) -> float:
    """Return the entropy in bits."""
    return -sum(chance * math.log2(chance) for chance in outlook.values() if chance > 0)


def gain_of_yes_or_no(shares: Sequence[float], chances: Sequence[float]) -> float:
    """Return the bits that a yes-or-no answer is expected to tell of hypotheses.

    Each has a probability in `shares`, and by it the answer is yes with the chance in `chances`.
    """
    outlooks: list[Outlook] = [{True: chance, False: 1 - chance} for chance in chances]
    pairs = list(zip(shares, outlooks, strict=True))
    expected = sum(share * _entropy(outlook) for share, outlook in pairs)
    return _entropy(_mixed(pairs)) - expected
