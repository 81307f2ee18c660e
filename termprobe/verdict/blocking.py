"""Which steps others keep from saying anything: by what they need, or by a board switched off."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import replace

from termprobe.plan.model import LineCheck, Plan, Step
from termprobe.verdict.model import BLOCKED, FAIL, SKIPPED, UNANSWERED, Blocked, StepVerdict


def blocked_steps(plan: Plan, own: Mapping[str, StepVerdict]) -> dict[str, Blocked]:
    """Return step id -> why, for each step that needs, also through others, one that failed."""
    found: dict[str, Blocked] = {}
    count = -1
    while count < len(found):
        count = len(found)
        for step in plan.steps:
            chain = _chain(step, own, found) if step.id not in found else ()
            if chain:
                last = own.get(chain[-1])
                was_skipped = last is not None and last.verdict == SKIPPED
                found[step.id] = Blocked(chain, was_skipped=was_skipped)
    return found


def _chain(
    step: Step, own: Mapping[str, StepVerdict], blocked: Mapping[str, Blocked]
) -> tuple[str, ...]:
    """Return the first need of `step` that failed, or that is blocked and by what.

    Nothing is returned where all may be well.
    """
    for need in step.needs:
        if need in blocked:
            return (need, *blocked[need].needs)
        if need in own and _is_missing(step, own.get(step.id), own[need]):
            return (need,)
    return ()


def _is_missing(step: Step, itself: StepVerdict | None, need: StepVerdict) -> bool:
    """Return whether `step` says nothing by what its need has come to.

    A check of the line tries what a person has prepared, which may not have been skipped. One that
    was itself skipped has a reason of its own.
    """
    if isinstance(step, LineCheck) and need.verdict == SKIPPED:
        return itself is None or itself.verdict != SKIPPED
    return need.verdict == FAIL and not need.known_fault


def switched_off(
    verdicts: Iterable[StepVerdict], standing: str, after: Collection[str]
) -> list[StepVerdict]:
    """Return the verdicts, those among `after` that nothing is known of blocked by `standing`."""
    because = Blocked((standing,), is_switched_off=True)

    def blocked(verdict: StepVerdict) -> StepVerdict:
        if verdict.verdict != UNANSWERED or verdict.id not in after:
            return verdict
        return replace(verdict, verdict=BLOCKED, because=because)

    return [blocked(verdict) for verdict in verdicts]
