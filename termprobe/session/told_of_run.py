"""Requests that the run alone carries out: remarks, and single groups of a step."""

from termprobe.runner.run import Run
from termprobe.session.messages import Note, SendGroups


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
