"""Looks that are not asked where others have passed that show all that they would."""

import dataclasses
from collections import Counter
from collections.abc import Iterable, Mapping, Set

from termprobe.plan.model import LineCheck, Look, Plan, Step

Covering = Mapping[str, tuple[str, ...]]
"""Id of each look that others cover: the ids of these, all of which must pass."""


def with_covering(plan: Plan, covering: Covering) -> Plan:
    """Return `plan` with each look covered as `covering` says, and by none where it says nothing.

    Steps and plan keep their hashes. A look at what a check of the line has left on the screen is
    covered by none: it tells what the line lost, and not what the board would show. Neither is one
    with an option where it seldom stands, or that goes on from one: no fault is modelled of what
    options do.
    """
    coverable = coverable_looks(plan)
    steps = (_covered(step, coverable, covering) for step in plan.steps)
    return dataclasses.replace(plan, steps=tuple(steps))


def coverable_looks(plan: Plan) -> frozenset[str]:
    """Return the ids of the looks that others may cover."""
    usual = _usual_settings(plan)
    found: set[str] = set()
    is_tied = False
    for before, step in zip((None, *plan.steps), plan.steps, strict=False):
        is_tied = step.continues and (is_tied or isinstance(before, LineCheck))
        is_tied = is_tied or step.settings != usual
        if isinstance(step, Look) and not is_tied:
            found.add(step.id)
    return frozenset(found)


def _usual_settings(plan: Plan) -> tuple[tuple[str, str], ...]:
    """Return the settings that most looks have, none where there are no looks."""
    counts = Counter(step.settings for step in plan.steps if isinstance(step, Look))
    return max(counts, key=counts.__getitem__, default=())


def _covered(step: Step, coverable: Set[str], covering: Covering) -> Step:
    if not isinstance(step, Look):
        return step
    if step.id not in coverable:
        return dataclasses.replace(step, covered_by=())
    return dataclasses.replace(step, covered_by=covering.get(step.id, ()))


def covering_in(plan: Plan) -> Covering:
    """Return the Covering that `plan` has."""
    looks = [step for step in plan.steps if isinstance(step, Look)]
    return {look.id: look.covered_by for look in looks if look.covered_by}


def asked_of(
    steps: Iterable[Step],
    passed: Set[str] = frozenset(),
    left_open: Set[str] = frozenset(),
    open_again: Set[str] = frozenset(),
) -> list[Step]:
    """Return those of `steps` that have to be asked if all goes well, in order.

    `passed` holds the ids of looks that have passed by answers of their own, `left_open` those of
    steps that are passed over, `open_again` those of steps that are asked whatever covers them.
    What is covered itself covers nothing.
    """
    good = set(passed)
    asked: list[Step] = []
    for step in steps:
        if step.id in open_again or not step.is_covered(good):
            asked.append(step)
            good |= {step.id} - left_open
    return asked
