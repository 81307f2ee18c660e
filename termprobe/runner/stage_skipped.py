"""The rest of a stage is left out at once, for one reason. It can be come back to later."""

from termprobe.journal.records import SKIPPED, Answer
from termprobe.plan.model import Step
from termprobe.runner.course import Course
from termprobe.runner.run import Run
from termprobe.verdict.model import UNANSWERED


def rest_of_stage(course: Course, step: Step) -> tuple[Step, ...]:
    """Return the steps of the stage of `step` that have no answer, itself the last if it is one."""
    stage = course.plan.of_stage(step.stage)
    unanswered = [one for one in stage if course.word(one.id) == UNANSWERED]
    return tuple(sorted(unanswered, key=lambda one: one.id == step.id))


def skip_stage(run: Run, step: Step, reason: str) -> None:
    """Record each of these as skipped for `reason`; from there `back` leads to `step`."""
    for one in rest_of_stage(run.course, step):
        run.record(one, Answer(SKIPPED, note=reason, observer="builder"))
