"""What can stand before a step: a caution, an option to be set, or that all must be off. Pure."""

from collections.abc import Callable
from dataclasses import dataclass

from termprobe.plan.model import Ask, LineCheck, Plan, Reply, Step, Switch
from termprobe.verdict.model import NOT_FITTED, PASS


@dataclass(frozen=True)
class CautionDue:
    """A person must read this before the step."""

    text: str


@dataclass(frozen=True)
class OptionDue:
    """An option of the board must be set before the step."""

    option: str
    position: str
    then: tuple[tuple[str, str], ...] = ()
    """(option, position) of what must be set after it."""


@dataclass(frozen=True)
class SwitchOffDue:
    """The board must be switched off: the rule of `step` says so, and nothing else can be tried."""

    step: Step


@dataclass(frozen=True)
class StepDue:
    """The step can be carried out."""


Due = SwitchOffDue | CautionDue | OptionDue | StepDue


def is_prepared(plan: Plan, step: Step, word_of: Callable[[str], str]) -> bool:
    """Return whether all is there that the step needs beforehand: plugs, cables, screens of checks.

    `word_of` gives the verdict of a step so far. A check of the line needs all passed, or not
    fitted; a question about the screen that one has left needs that check so.
    """
    needs = step.needs
    if _is_of_screen_left(step):
        needs = tuple(one for one in needs if isinstance(plan.step(one), LineCheck))
    elif not isinstance(step, LineCheck):
        return True
    return all(word_of(need) in (PASS, NOT_FITTED) for need in needs)


def _is_of_screen_left(step: Step) -> bool:
    """Return whether eyes or a reply tell what stands on the screen that another step has left."""
    is_question = isinstance(step, Ask) and not step.groups
    return step.continues and (is_question or isinstance(step, Reply))


def switch_to(plan: Plan, step: Step, option: str, position: str) -> Switch:
    """Return the plan's own step that sets an option so, or one made up for what `step` needs."""
    for other in plan.steps:
        is_switch = isinstance(other, Switch) and other.option == option
        if isinstance(other, Switch) and is_switch and other.position == position:
            return other
    return Switch(
        id=f"{option}-{position}",
        stage=step.stage,
        title=f"Set {option} to {position}",
        option=option,
        position=position,
    )
