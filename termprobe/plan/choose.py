"""A part of a plan: some stages, or some steps."""

import dataclasses
import hashlib
from collections.abc import Iterable, Sequence

from termprobe.errors import UsageError
from termprobe.findings import nearest, quoted
from termprobe.plan.model import Plan, Stage, Step


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


def choose_stages(plan: Plan, names: Sequence[str], skipped: Sequence[str] = ()) -> Plan:
    """Return the plan of those stages that wanted_stages() names; raise UsageError as it does."""
    wanted = wanted_stages(plan.stages, names, skipped)
    return choose(plan, [step.id for step in plan.steps if step.stage in wanted])


def wanted_stages(
    stages: Sequence[Stage], names: Sequence[str], skipped: Sequence[str]
) -> set[str]:
    """Return the ids of the stages named but those skipped; of all but these where none is named.

    Each is called by its id, its number from 1, or its title; capitals do not matter. Raises
    UsageError, which lists the stages, where a name is none's or that of several, or where no stage
    is left.
    """
    wanted = {stage_called(stages, name).id for name in names} or {stage.id for stage in stages}
    wanted -= {stage_called(stages, name, "--skip-stage").id for name in skipped}
    if not wanted:
        raise UsageError("--skip-stage must leave a stage to be tried, and leaves none")
    return wanted


def stage_called(stages: Sequence[Stage], name: str, option: str = "--stage") -> Stage:
    """Return the one of the stages that `name` calls; raise UsageError, which names `option`."""
    called = name.strip().casefold()
    by_id = {str(number): stage for number, stage in enumerate(stages, 1)}
    by_id |= {stage.id.casefold(): stage for stage in stages}
    if called in by_id:
        return by_id[called]
    found = [stage for stage in stages if called == stage.title.casefold()]
    if len(found) == 1:
        return found[0]
    reason = f", not {quoted(name)}"
    if found:
        reason = f"; {quoted(name)} calls {len(found)} of them"
    known = [word for stage in stages for word in (stage.id, stage.title)]
    words = f"{option} must be one of these, by number, id or title{reason}"
    raise UsageError("\n".join([words + nearest(name, known), *_listed(stages)]))


def _listed(stages: Sequence[Stage]) -> list[str]:
    """Return a line for each stage: its number, id and title."""
    width = max(len(stage.id) for stage in stages)
    return [
        f"{number:>4}  {stage.id:<{width}}  {stage.title}" for number, stage in enumerate(stages, 1)
    ]


def left_out(whole: Plan, part: Plan) -> int:
    """Return how many steps of a plan that are fitted are not in a part of it."""
    return sum(not step.not_fitted and step.id not in part.index for step in whole.steps)


def plan_hash(steps: Iterable[Step]) -> str:
    """Return the SHA-256 over the steps' hashes, in order, in hexadecimal."""
    return hashlib.sha256("".join(step.hash for step in steps).encode()).hexdigest()
