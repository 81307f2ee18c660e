"""Hands that can move a switch without a person: a simulated board's, or a rig's with relays."""

from collections.abc import Callable, Iterable

from termprobe.journal.records import AS_EXPECTED, DUMP, Answer
from termprobe.plan.model import Step, Switch


class HandsObserver:
    """Sets options by `set_option(option, position)`; `options` are the names that it can reach."""

    strength = DUMP

    def __init__(
        self,
        set_option: Callable[[str, str], None],
        options: Iterable[str],
        name: str = "simulated hands",
    ) -> None:
        self._set_option, self._options = set_option, frozenset(options)
        self.name = name

    def can_answer(self, step: Step) -> bool:
        """Return whether the step asks for a switch within reach."""
        return isinstance(step, Switch) and step.option in self._options

    def answer(self, step: Step) -> Answer:
        """Set the switch; return that it is done."""
        assert isinstance(step, Switch)
        self._set_option(step.option, step.position)
        return Answer(AS_EXPECTED)
