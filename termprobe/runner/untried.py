"""Steps that could not be tried over an earlier line, and can over this one."""

from termprobe.observer.untried import UntriedObserver
from termprobe.runner.run import Run
from termprobe.verdict.model import NOT_FITTED


def take_back_untried(run: Run) -> None:
    """Let no answer count that says of a step that can be tried now that it could not be."""
    observers = [one for one in run.observers if isinstance(one, UntriedObserver)]
    for step in run.plan.steps:
        verdict = run.verdict(step)
        if verdict.verdict != NOT_FITTED or not verdict.answers:
            continue
        if not any(one.answer(step) for one in observers):
            run.take_back(step)
