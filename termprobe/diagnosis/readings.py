"""Looks that eyes have answered and may be asked once more; what may be answered to them then."""

from collections.abc import Hashable, Mapping

from termprobe.diagnosis.accounts import Case
from termprobe.diagnosis.answers import LookAnswer
from termprobe.diagnosis.picture_outlooks import NO_PICTURE, PASSED

MOST_READINGS = 6
"""So often one look is answered at most. Two readings that differ leave it open; where few cells
differ, two more that pass it make good one that did not."""
MORE_WHERE_DISPUTED = 2
"""So many more where the last reading is not as the one before: no single slip is to be the last.
"""


def is_readable_again(one: object) -> bool:
    """Return whether an answer is one of eyes, to a look that may be asked once more.

    Who has marked what differs, cell by cell, has looked closely already.
    """
    if not isinstance(one, LookAnswer) or not one.is_by_eyes or one.marks is not None:
        return False
    return len(one.readings) < _most_readings(one)


def _most_readings(one: LookAnswer) -> int:
    """Return how often this look is answered at most."""
    if one.before and not one.is_as(one.before[-1]):
        return MOST_READINGS + MORE_WHERE_DISPUTED
    return MOST_READINGS


def last_readings(case: Case) -> dict[str, Hashable]:
    """Return id -> last answer, as Outlooks have it, of each look that may be asked once more."""
    return {
        one.step_id: _said(one)
        for one in case.observations
        if isinstance(one, LookAnswer) and is_readable_again(one)
    }


def asked_again(case: Case) -> int:
    """Return how many answers were given to looks that were asked once more."""
    looks = [one for one in case.observations if isinstance(one, LookAnswer)]
    return sum(len(one.before) for one in looks)


def _said(one: LookAnswer) -> Hashable:
    if one.picked is None:
        return not one.has_passed
    if one.has_passed:
        return PASSED
    return one.picked.picture or NO_PICTURE


def outlooks_again(
    outlooks: Mapping[str, Mapping[Hashable, float]], last: Hashable, same_again: float
) -> dict[str, Mapping[Hashable, float]]:
    """Return what may be answered next by each cause, where it was `last`.

    `outlooks` are those of a look that was never asked; in a share of `same_again` the last answer
    is said again whatever is shown. Causes with one Outlook have one again.
    """
    mixed: dict[int, Mapping[Hashable, float]] = {}
    for outlook in outlooks.values():
        if id(outlook) not in mixed:
            mixed[id(outlook)] = _mixed(outlook, last, same_again)
    return {name: mixed[id(outlook)] for name, outlook in outlooks.items()}


def _mixed(
    outlook: Mapping[Hashable, float], last: Hashable, same_again: float
) -> Mapping[Hashable, float]:
    found = {answer: (1 - same_again) * chance for answer, chance in outlook.items()}
    found[last] = found.get(last, 0.0) + same_again
    return found
