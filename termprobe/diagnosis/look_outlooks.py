"""What may be answered to each look that can be asked next, by each cause that may be right.

A look may be one that was asked before, and is asked once more.
"""

from collections.abc import Hashable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cache
from typing import NamedTuple

from termprobe.board.faults import speed
from termprobe.diagnosis.accounts import Case
from termprobe.diagnosis.answers import LookAnswer
from termprobe.diagnosis.bit_outlooks import SIGHTS, bits_of_causes, with_bits
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.fits import by_codes
from termprobe.diagnosis.looks_before import sights_in_run
from termprobe.diagnosis.picture_outlooks import outlooks_of_pictures
from termprobe.diagnosis.readings import last_readings, outlooks_again
from termprobe.diagnosis.shown import Sight
from termprobe.diagnosis.typed_outlooks import outlooks_of_typed
from termprobe.plan.model import Step, TypedBack
from termprobe.verdict.model import PASS, SKIPPED, UNANSWERED, UNSURE, Covered, RunVerdict

Outlook = Mapping[Hashable, float]
"""Each answer that may come, with its probability."""


class Candidate(NamedTuple):
    """One cause that may be the right one."""

    name: str
    block: str
    probability: float


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
    yield from _outlooks(case, candidates, fresh, dictionary)
    closely = replace(case, rates=case.rates.once_more())
    again = [case.plan.step(look) for look in last]
    for step, outlooks in _outlooks(closely, candidates, again, dictionary):
        yield step, outlooks_again(outlooks, last[step.id], case.rates.same_again)


def _outlooks(
    case: Case, candidates: Sequence[Candidate], steps: Iterable[Step], dictionary: FaultDictionary
) -> Iterator[tuple[Step, Mapping[str, Outlook]]]:
    """Yield each step with the Outlook by each candidate, of somebody who looks with open eyes."""
    in_run = sights_in_run(case, [one.name for one in candidates], dictionary)
    numbers = {look: number for number, look in enumerate(dictionary.looks)}
    looked = [one for one in case.observations if isinstance(one, LookAnswer)]
    is_read = any(one.codes for one in looked)
    are_offered = any(one.picked for one in looked)
    shares = dict.fromkeys(SIGHTS, 0.0) | {one.name: _to_offer(one) for one in candidates}
    bits = bits_of_causes(case, [one.name for one in candidates], dictionary)
    cells = case.plan.rows * case.plan.columns
    for step in steps:
        if step.id in numbers:
            sights = _sights(candidates, numbers[step.id], dictionary, bool(looked))
            sights |= in_run.get(step.id, {})
            if looked and not any(one.sees_dots for one in looked):
                sights = {name: by_codes(sight) for name, sight in sights.items()}
            if is_read:
                outlooks = _of_pictures_read(sights)
            elif are_offered:
                outlooks = outlooks_of_pictures(sights, shares, cells, case.rates)
            else:
                outlooks = {name: _yes_or_no(case, sight) for name, sight in sights.items()}
            yield step, with_bits(outlooks, bits, numbers[step.id])
        elif isinstance(step, TypedBack):
            yield step, outlooks_of_typed(case, [one.name for one in candidates], step)


def _to_offer(one: Candidate) -> float:
    """Return how probable it is that a picture must be offered for a cause.

    A wrong clock has no certain picture.
    """
    if one.block in speed.BLOCKS:
        return 0.0
    return one.probability


def _sights(
    candidates: Sequence[Candidate], number: int, dictionary: FaultDictionary, is_begun: bool
) -> dict[str, Sight]:
    """Return how one look differs by each candidate, and all SIGHTS of single cells and dots.

    Where a run `is_begun`, there is something that a fault may let be seen as after the looks of
    the script that come before.
    """
    known = [dictionary.faults.get(one.name, dictionary.good) for one in candidates]
    sights = [(one.in_order if is_begun else one.alone)[number] for one in known]
    return SIGHTS | dict(zip([one.name for one in candidates], sights, strict=True))


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


def of_several(parts: Iterable[tuple[float, Outlook]]) -> Outlook:
    """Return the Outlook of several that each have a probability, by how these compare.

    Those with one and the same Outlook are counted together: most causes share it with others.
    """
    known: dict[int, Outlook] = {}
    shares: dict[int, float] = {}
    for probability, outlook in parts:
        key = id(outlook)
        known[key] = outlook
        shares[key] = shares.get(key, 0.0) + probability
    found: dict[Hashable, float] = {}
    for key, share in shares.items():
        for answer, chance in known[key].items():
            found[answer] = found.get(answer, 0.0) + share * chance
    total = sum(shares.values())
    return {answer: chance / total for answer, chance in found.items()}
