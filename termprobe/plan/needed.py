"""Steps in another order than the script's, each still behind what it needs. Pure."""

from collections.abc import Iterable

from termprobe.plan.model import Plan


def behind_needs(plan: Plan, step_ids: Iterable[str]) -> tuple[str, ...]:
    """Return the ids of the steps named, in the order given, each behind all that it needs.

    A step that it needs is brought along, with what that one needs in turn. What the plan does not
    have is left out.
    """
    found: dict[str, None] = {}
    for step_id in step_ids:
        for needed in _with_needs(plan, step_id):
            found.setdefault(needed)
    return tuple(found)


def _with_needs(plan: Plan, step_id: str) -> list[str]:
    """Return the ids of a step and of all that it needs, in the order of the plan."""
    found: set[str] = set()
    waiting = [step_id]
    while waiting:
        one = waiting.pop()
        if one in plan.index and one not in found:
            found.add(one)
            waiting += plan.step(one).needs
    return sorted(found, key=plan.index.__getitem__)
