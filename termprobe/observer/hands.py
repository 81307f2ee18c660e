"""Hands that can move a switch without a person: those of a simulated board, or of a rig with relays."""

from termprobe.plan.model import SWITCH
from termprobe.observer.base import AS_EXPECTED, DUMP, Answer


class HandsObserver:
    """Sets options by `set_option(option, position)`; `options` are the names that it can reach."""

    strength = DUMP

    def __init__(self, set_option, options, name="simulated hands"):
        self._set_option, self._options = set_option, frozenset(options)
        self.name = name

    def can_answer(self, step):
        """Return whether the step asks for a switch within reach."""
        return step.kind == SWITCH and step.option in self._options

    def answer(self, step):
        """Set the switch; return that it is done."""
        self._set_option(step.option, step.position)
        return Answer(AS_EXPECTED)
