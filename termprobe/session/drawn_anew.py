"""A step whose screen goes on from one that must be drawn anew, with options set elsewhere."""

from collections.abc import Callable
from dataclasses import dataclass

from termprobe.plan.model import Step
from termprobe.runner.run import Run
from termprobe.runner.torn import drawn_first


@dataclass(frozen=True)
class Torn:
    """A step was not sent: the screen that it goes on from must be drawn with other options."""

    step_id: str
    before: tuple[str, ...]
    """The steps that draw it, in order."""


def is_torn(run: Run, step: Step, post: Callable[[Torn], None]) -> bool:
    """Return whether `step` cannot be sent before others, each with its own options; tell which."""
    before = drawn_first(run.plan, step, run.on_screen)
    if before:
        post(Torn(step.id, tuple(part.id for part in before)))
    return bool(before)
