"""Checks of the line itself: nobody is asked, what comes back and the control lines tell."""

from collections.abc import Callable

from termprobe.journal.records import AS_EXPECTED, DIFFERS, RETURNED, UNSURE, Answer
from termprobe.line.checks import CHECKS
from termprobe.line.in_use import LineInUse
from termprobe.plan.model import LineCheck, Step

_WORDS = {True: AS_EXPECTED, False: DIFFERS, None: UNSURE}


class LineObserver:
    """Carries out the check of a step over the line in use."""

    strength = RETURNED
    name = "the line"

    def __init__(self, line: LineInUse, hold: Callable[[LineCheck], None] | None = None) -> None:
        """`hold` does on a simulated board what the check asks hands to do."""
        self._line, self._hold = line, hold

    def can_answer(self, step: Step) -> bool:
        """Return whether the step is a check of the line."""
        return isinstance(step, LineCheck)

    def answer(self, step: Step) -> Answer:
        """Return what the check found, in the answer's note, and what it draws."""
        assert isinstance(step, LineCheck)
        if self._hold is not None:
            self._hold(step)
        checked = CHECKS[step.check](self._line)
        return Answer(_WORDS[checked.is_right], note=checked.said, drawn=checked.drawn)
