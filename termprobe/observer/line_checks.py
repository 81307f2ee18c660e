"""Checks of the line itself: nobody is asked, what comes back and the control lines tell."""

from termprobe.journal.records import AS_EXPECTED, DIFFERS, RETURNED, UNSURE, Answer
from termprobe.line.checks import CHECKS
from termprobe.line.in_use import LineInUse
from termprobe.plan.model import LineCheck, Step

_WORDS = {True: AS_EXPECTED, False: DIFFERS, None: UNSURE}


class LineObserver:
    """Carries out the check of a step over the line in use."""

    strength = RETURNED
    name = "the line"

    def __init__(self, line: LineInUse) -> None:
        self._line = line

    def can_answer(self, step: Step) -> bool:
        """Return whether the step is a check of the line."""
        return isinstance(step, LineCheck)

    def answer(self, step: Step) -> Answer:
        """Return what the check found, in the answer's note, and what it draws."""
        assert isinstance(step, LineCheck)
        checked = CHECKS[step.check](self._line)
        return Answer(_WORDS[checked.is_right], note=checked.said, drawn=checked.drawn)
