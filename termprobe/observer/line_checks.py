"""Checks of the line itself: nobody is asked, what comes back and the control lines tell."""

from collections.abc import Callable

from termprobe.journal.records import AS_EXPECTED, DIFFERS, RETURNED, UNSURE, Answer
from termprobe.line.checks import CHECKS
from termprobe.line.in_use import LineInUse
from termprobe.line.untried import takes
from termprobe.plan.model import LineCheck, Step

_WORDS = {True: AS_EXPECTED, False: DIFFERS, None: UNSURE}


def _by_a_person(key: str) -> None:
    """Leave it to the person who was asked to hold the key."""


class LineObserver:
    """Carries out the check of a step over the line in use.

    `hold_key(key)` has the key held that sends `key`, meanwhile; empty lets it go.
    """

    strength = RETURNED
    name = "the line"

    def __init__(
        self,
        line: LineInUse,
        hold_key: Callable[[str], None] = _by_a_person,
        hold: Callable[[LineCheck], None] | None = None,
    ) -> None:
        """`hold` does on a simulated board what a check of its functions asks hands to do."""
        self._line, self._hold_key, self._hold = line, hold_key, hold

    def can_answer(self, step: Step) -> bool:
        """Return whether the step is a check of the line."""
        return isinstance(step, LineCheck)

    def answer(self, step: Step) -> Answer:
        """Return what the check found, in the answer's note, and what it draws."""
        assert isinstance(step, LineCheck)
        if self._hold is not None:
            self._hold(step)
        self._hold_key(takes(step.check).held_key)
        try:
            checked = CHECKS[step.check](self._line)
        finally:
            self._hold_key("")
        word, note = _WORDS[checked.is_right], checked.said
        return Answer(word, note=note, drawn=checked.drawn, value=checked.value)
