"""What of a plan can be tried without a computer on the line, each with a short number. Pure.

The numbers follow from the whole plan: those of a part are the same, and so are the card that was
printed and the form that is typed off it.
"""

from collections.abc import Iterator, Sequence, Set
from dataclasses import dataclass

from termprobe.plan.model import Ask, KeyPress, LineCheck, Measure, Plan, Step

READING, KEY = "V", "K"
"""So begin the numbers of readings, and of presses of keys; those of all else have no letter."""


@dataclass(frozen=True)
class CardItem:
    """One thing to try and to write down."""

    number: str
    """`3`, `V1` for a reading, `K7` for a press."""
    step: Step


def card_items(plan: Plan) -> tuple[CardItem, ...]:
    """Return the items of a whole plan, in its order."""
    counted: dict[str, int] = {}
    items: list[CardItem] = []
    for step in _of_hands(plan.steps):
        letter = _letter(step)
        counted[letter] = counted.get(letter, 0) + 1
        items.append(CardItem(f"{letter}{counted[letter]}", step))
    return tuple(items)


def left_off(plan: Plan) -> tuple[Step, ...]:
    """Return the fitted steps that take a computer on the line, in order."""
    on_card = {step.id for step in _of_hands(plan.steps)}
    return tuple(step for step in plan.steps if step.id not in on_card and not step.not_fitted)


def _letter(step: Step) -> str:
    if isinstance(step, Measure):
        return READING
    return KEY if isinstance(step, KeyPress) else ""


def _of_hands(steps: Sequence[Step]) -> Iterator[Step]:
    """Yield the fitted steps that eyes, hands, meters and any sender can do."""
    prepared = _only_for_checks(steps)
    checks = {step.id for step in steps if isinstance(step, LineCheck)}
    is_on_card = True
    for step in steps:
        goes_on_elsewhere = step.continues and not is_on_card
        is_of_line = step.id in checks | prepared or not checks.isdisjoint(step.needs)
        is_on_card = not (step.not_fitted or is_of_line or goes_on_elsewhere)
        if is_on_card:
            yield step


def _only_for_checks(steps: Sequence[Step]) -> Set[str]:
    """Return the ids of the questions that prepare checks of the line, and nothing else."""
    questions = {step.id for step in steps if isinstance(step, Ask) and not step.groups}
    of_checks = {need for step in steps if isinstance(step, LineCheck) for need in step.needs}
    of_others = {need for step in steps if not isinstance(step, LineCheck) for need in step.needs}
    return (questions & of_checks) - of_others
