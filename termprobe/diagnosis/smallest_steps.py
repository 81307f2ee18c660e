"""The smallest part of a plan whose steps show all faults that the whole shows, with the proof.

A step that goes on from the screen of the one before takes that one along. So what is chosen is,
of each chain of steps, how far it is carried out.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from termprobe.diagnosis.cheapest import Want, cheapest_choice
from termprobe.diagnosis.cover import numbers_of
from termprobe.plan.choose import choose
from termprobe.plan.model import Plan, Step


@dataclass(frozen=True)
class SmallestSteps:
    """Steps that show all that the whole plan shows."""

    steps: tuple[str, ...]
    """Ids, in the order of the plan."""
    cost: int
    lower_bound: int
    """No part of the plan that costs less shows all."""

    @property
    def is_smallest(self) -> bool:
        """Whether the bound proves that none costs less."""
        return self.cost == self.lower_bound


def smallest_steps(
    plan: Plan, steps: Sequence[str], wants: Iterable[Want], cost_of: Callable[[Step], int]
) -> SmallestSteps:
    """Return the SmallestSteps that meet all of `wants`, whose items are numbers in `steps`.

    `cost_of` returns what a step costs, more than 0. A want of several items must not name steps
    that go on from others.
    """
    ways = [_way_to(plan, step_id) for step_id in steps]
    costs = [sum(map(cost_of, way)) for way in ways]
    brings = _brought_by(steps, ways)
    extended = {Want(_bringing(want.items, brings), want.least) for want in wants}
    chosen = cheapest_choice(costs, extended)
    taken = {step.id for number in numbers_of(chosen.items) for step in ways[number]}
    in_order = tuple(step.id for step in plan.steps if step.id in taken)
    return SmallestSteps(in_order, chosen.cost, chosen.lower_bound)


def _way_to(plan: Plan, step_id: str) -> tuple[Step, ...]:
    """Return the steps that must be carried out for the one called `step_id`, itself included."""
    return choose(plan, [step_id]).steps


def _brought_by(steps: Sequence[str], ways: Sequence[Sequence[Step]]) -> list[int]:
    """Return for each of `steps` those, as bits, whose way leads over it, itself included."""
    brought = dict.fromkeys(steps, 0)
    for number, way in enumerate(ways):
        for step in way:
            brought[step.id] = brought.get(step.id, 0) | 1 << number
    return [brought[step_id] for step_id in steps]


def _bringing(items: int, brings: Sequence[int]) -> int:
    found = 0
    for number in numbers_of(items):
        found |= brings[number]
    return found
