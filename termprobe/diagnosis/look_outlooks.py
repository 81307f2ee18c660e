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
from termprobe.diagnosis.picture_outlooks import outlooks_of_pictures
from termprobe.diagnosis.readings import last_readings, outlooks_again
from termprobe.diagnosis.shown import Sight
from termprobe.diagnosis.typed_outlooks import outlooks_of_typed
from termprobe.plan.model import Step, TypedBack
from termprobe.verdict.model import PASS, SKIPPED, UNANSWERED, UNSURE, Covered, RunVerdict

Outlook = Mapping[Hashable, float]
"""Each answer that may come, with its probability."""
EITHER_WAY: Outlook = {True: 0.5, False: 0.5}
"""That of a look of which nothing is known."""


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
    shares = dict.fromkeys(SIGHTS, 0.0) | {one.name: _to_offer(one) for one in candidates}
    bits = bits_of_causes(case, [one.name for one in candidates], dictionary)
    cells = case.plan.rows * case.plan.columns
    for step in steps:
        if step.id in numbers:
            sights = _sights(candidates, numbers[step.id], dictionary)
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
    candidates: Sequence[Candidate], number: int, dictionary: FaultDictionary
) -> dict[str, Sight]:
    """Return how one look differs by each candidate, and all SIGHTS of single cells and dots."""
    good = dictionary.good
    sights = {one.name: dictionary.faults.get(one.name, good).alone[number] for one in candidates}
    return SIGHTS | sights


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
