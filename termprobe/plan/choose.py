"""A part of a plan: some stages, or some steps."""

import dataclasses
import hashlib
from collections.abc import Iterable, Sequence

from termprobe.errors import UsageError
from termprobe.findings import nearest
from termprobe.plan.model import Plan, Step


def choose(plan: Plan, step_ids: Iterable[str]) -> Plan:
    """Return the plan of the steps named, in plan order.

    Needs that fall away are dropped; steps keep their hashes. A step that goes on from the one
    before brings that one along.
    """
    wanted = set(step_ids)
    for before, step in reversed(list(zip(plan.steps, plan.steps[1:], strict=False))):
        if step.continues and step.id in wanted:
            wanted.add(before.id)
    kept = tuple(_needing_only(wanted, step) for step in plan.steps if step.id in wanted)
    in_use = {step.stage for step in kept}
    stages = tuple(stage for stage in plan.stages if stage.id in in_use)
    return dataclasses.replace(plan, stages=stages, steps=kept, hash=plan_hash(kept))


def _needing_only(wanted: set[str], step: Step) -> Step:
    return dataclasses.replace(step, needs=tuple(need for need in step.needs if need in wanted))


def choose_stages(plan: Plan, stage_ids: Sequence[str]) -> Plan:
    """Return the plan of the stages named; raise UsageError where there is no such stage."""
    known = [stage.id for stage in plan.stages]
    for stage_id in stage_ids:
        if stage_id not in known:
            words = f'--stage must be one of {", ".join(known)}, not "{stage_id}"'
            raise UsageError(words + nearest(stage_id, known))
    return choose(plan, [step.id for step in plan.steps if step.stage in stage_ids])


def left_out(whole: Plan, part: Plan) -> int:
    """Return how many steps of a plan that are fitted are not in a part of it."""
    return sum(not step.not_fitted and step.id not in part.index for step in whole.steps)


def plan_hash(steps: Iterable[Step]) -> str:
    """Return the SHA-256 over the steps' hashes, in order, in hexadecimal."""
    return hashlib.sha256("".join(step.hash for step in steps).encode()).hexdigest()
