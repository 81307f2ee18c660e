"""The glass of a simulated board, read without eyes."""

from termprobe.plan.model import ASK, LOOK
from termprobe.observer.base import DUMP, compared


class GlassObserver:
    """Reads the glass by `glass_of()`, which returns anything with `rows`, `cursor` and `bells` (a running count)."""

    strength = DUMP

    def __init__(self, glass_of, name="simulated glass"):
        self._glass_of = glass_of
        self._bells = 0
        self.name = name

    def begin(self):
        """Count bells from here: a step is about to be sent on a fresh glass."""
        self._bells = self._glass_of().bells

    def can_answer(self, step):
        """Return whether there is a glass to compare."""
        return step.kind in (LOOK, ASK) and step.expected is not None

    def answer(self, step):
        """Return the Answer by what the glass shows now."""
        glass = self._glass_of()
        return compared(step, glass.rows, glass.cursor, glass.bells - self._bells)
