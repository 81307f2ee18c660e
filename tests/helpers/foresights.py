"""A Foresight that says what a test prepared."""

from termprobe.journal.kept import ShownWithFaults
from termprobe.runner.known_fault import NO_PROSPECT, NamedFault, Prospect
from termprobe.verdict.model import FAIL

STUCK = "bank-0-data/stuck/2/0"


class Foretold:
    """Names STUCK once `after` looks have failed, and `next_look` before that.

    `screens` is step id -> Screen as that board shows it.
    """

    def __init__(self, after=2, next_look=None, hidden=(), **screens):
        self.after, self.next_look = after, next_look
        self.hidden, self.screens = hidden, screens
        self.asked = 0

    def prospect(self, records, verdict):
        self.asked += 1
        failed = tuple(step.id for step in verdict.steps if step.verdict == FAIL)
        if verdict.known_faults:
            return NO_PROSPECT
        if len(failed) < self.after:
            return Prospect(next=self.next_look)
        told = ("Probe line 2.",)
        return Prospect(NamedFault(STUCK, (), "line 2 stuck at 0", failed, self.hidden, told))

    def shown(self, records, step, faults):
        screen = self.screens.get(step.id)
        if screen is None:
            return None
        return ShownWithFaults(tuple(faults), screen.rows, screen.cursor, screen.bells)
