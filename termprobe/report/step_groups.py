"""The steps that were not tried, in groups: one for each cause, with the stages by their titles."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from termprobe.plan.model import Plan
from termprobe.verdict import model
from termprobe.verdict.model import Blocked, Hidden, RunVerdict, Silent, StepVerdict, Unfitted

NOT_TRIED = (model.UNANSWERED, model.BLOCKED, model.NOT_FITTED)
"""The verdicts of such steps."""
NOT_OF_THIS_TERMINAL = "not part of this terminal"
"""The cause of steps that no board of the profile could be tried by."""


@dataclass(frozen=True)
class StepGroup:
    """Steps that were not tried for the same cause."""

    verdict: str
    cause: str
    """In words; empty where the verdict says all."""
    steps: int
    stages: tuple[tuple[str, int], ...]
    """(title, how many of them), in the order of the plan."""

    def in_words(self) -> str:
        """Return `3 steps, Keyboard fails: Characters 2, Bell 1`."""
        told = "1 step" if self.steps == 1 else f"{self.steps} steps"
        if self.cause:
            told += f", {self.cause}"
        return f"{told}: {', '.join(f'{title} {count}' for title, count in self.stages)}"


def step_groups(plan: Plan, verdict: RunVerdict) -> tuple[StepGroup, ...]:
    """Return the groups of a run: unanswered first, then blocked, then not fitted."""
    return tuple(group for word in NOT_TRIED for group in _groups_of(word, plan, verdict))


def _groups_of(word: str, plan: Plan, verdict: RunVerdict) -> Iterator[StepGroup]:
    """Yield the groups of the steps with one verdict."""
    titles = {step.id: step.title for step in plan.steps}
    by_cause: dict[str, list[StepVerdict]] = {}
    for step in verdict.steps:
        if step.verdict == word:
            by_cause.setdefault(_cause(step, titles), []).append(step)
    for cause, steps in by_cause.items():
        yield StepGroup(word, cause, len(steps), _stages(plan, steps))


def _cause(step: StepVerdict, titles: dict[str, str]) -> str:
    match step.because:
        case Blocked(needs):
            return f'since "{titles.get(needs[-1], needs[-1])}" failed'
        case Hidden(fault):
            return f"since known fault {fault} changes most of the screen"
        case Silent():
            return "nothing has ever come back over the line"
        case Unfitted(why) if step.answers:
            return why
    return NOT_OF_THIS_TERMINAL if step.verdict == model.NOT_FITTED else ""


def _stages(plan: Plan, steps: Sequence[StepVerdict]) -> tuple[tuple[str, int], ...]:
    stages = [step.stage for step in steps]
    counted = [(stage.title, stages.count(stage.id)) for stage in plan.stages]
    return tuple((title, count) for title, count in counted if count)
