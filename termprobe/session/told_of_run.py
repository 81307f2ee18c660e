"""Requests that the run alone carries out: remarks, and single groups of a step."""

from collections.abc import Callable

from termprobe.plan.model import Step
from termprobe.runner.run import Run
from termprobe.runner.torn import drawn_first
from termprobe.session.messages import Note, SendGroups, Torn


def note(run: Run, request: Note) -> None:
    """Write down a remark."""
    step = None if request.step_id is None else run.plan.step(request.step_id)
    run.note(request.text, step)


def send_groups(run: Run, request: SendGroups) -> None:
    """Send groups of the step that is played."""
    if run.step is None:
        return
    for group in request.groups:
        run.send_group(run.step, group)


def is_torn(run: Run, step: Step, post: Callable[[Torn], None]) -> bool:
    """Return whether `step` cannot be sent before others, each with its own options; tell which."""
    before = drawn_first(run.plan, step, run.on_screen)
    if before:
        post(Torn(step.id, tuple(part.id for part in before)))
    return bool(before)
