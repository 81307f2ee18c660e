"""Which steps say that the board must be switched off, and what that blocks. Pure."""

from collections.abc import Callable, Iterable

from termprobe.plan.model import Plan, Step
from termprobe.verdict.model import FAIL, PASS


def switch_off_steps(plan: Plan, words: Callable[[Step], Iterable[str]]) -> tuple[str, ...]:
    """Return the ids of the steps with a rule to switch off that failed, in the plan's order.

    `words(step)` gives the verdict by each of its answers alone, the last one first. Only one that
    passes lifts the rule: a step that failed and was then left out still holds.
    """
    ruled = (step for step in plan.steps if step.stop_if)
    return tuple(step.id for step in ruled if _has_failed(words(step)))


def _has_failed(words: Iterable[str]) -> bool:
    decided = (word for word in words if word in (PASS, FAIL))
    return next(decided, PASS) == FAIL


def steps_after(plan: Plan, standing: Iterable[str]) -> frozenset[str]:
    """Return the ids of all steps behind the first of those `standing`.

    A plan does not say which steps need a rail, so all are taken to.
    """
    first = min((plan.index[step_id] for step_id in standing), default=len(plan.steps))
    return frozenset(step.id for step in plan.steps[first + 1 :])
