"""What cannot be tried over the line in use: checks that it has no means for, and what leads there.

The reason is the note of the answer.
"""

from collections.abc import Collection
from typing import Protocol

from termprobe.journal.records import NOT_FITTED, RETURNED, Answer
from termprobe.line.untried import TAKES_NOTHING, takes, why_untried
from termprobe.plan.model import Ask, LineCheck, Plan, Step


class AbleLine(Protocol):
    """What a line can do."""

    @property
    def abilities(self) -> Collection[str]:
        """By the words of link/base.py."""

    @property
    def handshake(self) -> str:
        """What the board is said to keep."""


class UntriedObserver:
    """Answers that a step of `plan` is not fitted to `line`; `can_plug`: a plug can be put on."""

    strength = RETURNED
    name = "the line"

    def __init__(self, plan: Plan, line: AbleLine, can_plug: bool = True) -> None:
        self._plan, self._line, self._can_plug = plan, line, can_plug

    def can_answer(self, step: Step) -> bool:
        """Return whether the step may hang on what the line can do."""
        return isinstance(step, LineCheck | Ask)

    def answer(self, step: Step) -> Answer | None:
        """Return that the step is not fitted, and why; None where it can be tried."""
        why = self._why(step)
        if not why:
            return None
        return Answer(NOT_FITTED, note=why)

    def _why(self, step: Step) -> str:
        """Return why `step` cannot be tried.

        What a person is asked to prepare is for nothing where no check that needs it can be tried.
        """
        if isinstance(step, LineCheck):
            line = self._line
            if takes(step.check) == TAKES_NOTHING:
                return ""
            return why_untried(step.check, line.abilities, line.handshake, self._can_plug)
        needing = [one for one in self._plan.steps if step.id in one.needs]
        checks = [one for one in needing if isinstance(one, LineCheck)]
        if not checks or len(checks) < len(needing):
            return ""
        reasons = [self._why(check) for check in checks]
        if not all(reasons):
            return ""
        return reasons[0]
