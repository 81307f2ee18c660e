"""The screen of a simulated board, read without eyes."""

from termprobe.plan.model import ASK, LOOK
from termprobe.observer.base import DUMP, compared


class SimulatedScreenObserver:
    """Reads the screen by `screen_of()`, which returns anything with `rows`, `cursor` and `bells` (a running count)."""

    strength = DUMP

    def __init__(self, screen_of, name="simulated screen"):
        self._screen_of = screen_of
        self._bells = 0
        self.name = name

    def begin(self):
        """Count bells from here: a step is about to be sent on a fresh screen."""
        self._bells = self._screen_of().bells

    def can_answer(self, step):
        """Return whether there is a screen to compare."""
        return step.kind in (LOOK, ASK) and step.expected is not None

    def answer(self, step):
        """Return the Answer by what the screen shows now."""
        screen = self._screen_of()
        return compared(step, screen.rows, screen.cursor, screen.bells - self._bells)
