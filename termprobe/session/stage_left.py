"""The rest of a stage is left out at the builder's word."""

from dataclasses import dataclass

from termprobe.plan.model import Step
from termprobe.runner.run import Run
from termprobe.runner.stage_skipped import skip_stage


@dataclass(frozen=True)
class SkipStage:
    """Leave out the rest of the stage of a step, write down why, and tell what comes next."""

    step_id: str
    reason: str


def leave_stage(run: Run, request: SkipStage) -> Step:
    """Leave it out; return the step from which that was asked."""
    step = run.plan.step(request.step_id)
    skip_stage(run, step, request.reason)
    return step
