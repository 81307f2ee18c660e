"""The screen of a simulated board, seen as a builder sees it who misses nothing that is asked."""

from collections import Counter
from collections.abc import Callable
from typing import Protocol

from termprobe.journal.records import DUMP, Answer
from termprobe.observer.base import compared
from termprobe.plan.model import Ask, Look, Step, expected_of
from termprobe.terminal.dots import Misdrawn, noticed
from termprobe.terminal.screen import Screen


class ShownByBoard(Protocol):
    """What a simulated board shows."""

    @property
    def rows(self) -> tuple[str, ...]:
        """One string for each row."""

    @property
    def cursor(self) -> tuple[int, int] | None:
        """Row and column."""

    @property
    def bells(self) -> int:
        """How often the bell has rung since the board was switched on."""

    @property
    def misdrawn(self) -> tuple[Misdrawn, ...] | None:
        """What is drawn with other dots than it should be; None where nothing is known of dots."""


class SimulatedScreenObserver:
    """Reads the screen by `screen_of()`."""

    strength = DUMP

    def __init__(
        self, screen_of: Callable[[], ShownByBoard], name: str = "simulated screen"
    ) -> None:
        self._screen_of = screen_of
        self._bells = 0
        self.name = name

    def begin(self) -> None:
        """Count bells from here: a step is about to be sent on a fresh screen."""
        self._bells = self._screen_of().bells

    def can_answer(self, step: Step) -> bool:
        """Return whether there is a screen to compare."""
        return isinstance(step, Look | Ask) and step.expected is not None

    def answer(self, step: Step) -> Answer | None:
        """Return the Answer by what the screen shows now."""
        expected = expected_of(step)
        if expected is None:
            return None
        screen = self._screen_of()
        bells = screen.bells - self._bells
        misdrawn = _noticed(step, expected, screen)
        return compared(expected, screen.rows, screen.cursor, bells, misdrawn)


def _noticed(step: Step, expected: Screen, screen: ShownByBoard) -> tuple[Misdrawn, ...] | None:
    """Return what an eye notices of wrong dots; None where the board tells of none."""
    if screen.misdrawn is None:
        return None
    counts = Counter("".join(screen.rows))
    asks_dots = isinstance(step, Look) and step.asks_dots
    return noticed(screen.misdrawn, counts, asks_dots, expected.cursor is not None)
