"""Chains in which an option moves from step to step: they cannot be sent at one go. Pure."""

from termprobe.plan.model import Plan, Step
from termprobe.runner.course import chain


def drawn_first(plan: Plan, step: Step, on_screen: str | None) -> tuple[Step, ...]:
    """Return the steps that must be drawn one by one before `step`, each with its own settings.

    There are none where the screen that it goes on from is there, or can be drawn with the options
    where `step` wants them. `on_screen` is as of chain().
    """
    *before, _ = chain(plan, step, on_screen)
    if all(part.settings == step.settings for part in before):
        return ()
    return tuple(before)
