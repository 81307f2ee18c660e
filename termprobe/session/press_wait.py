"""Waits on the line for the press of a key of the board."""

from termprobe.clock import Clock
from termprobe.observer.press import MACHINE_LIMIT_S, Ear
from termprobe.plan.model import Step
from termprobe.runner.run import Run
from termprobe.session.messages import Pieces


class PressWait:
    """Waits for one press after another, on the line of `run`.

    A press that does not come within `wait_s` is missing; None waits for ever.
    """

    def __init__(self, run: Run, clock: Clock, wait_s: float | None) -> None:
        self._run, self._clock = run, clock
        self._wait_s = self._limit_s = wait_s
        self._ear = Ear(run)
        self._since_s: float | None = None
        """Since when a key is waited for; None while none is."""

    @property
    def is_on(self) -> bool:
        """Whether a press is waited for."""
        return self._since_s is not None

    def begin(self, step: Step) -> None:
        """Wait for the press `step`.

        What comes between two presses is of the next one, for a hand may be quicker than the
        console.
        """
        earlier = self._run.begin(step)
        if self.is_on:
            self._ear.keep(earlier)
        else:
            self._ear = Ear(self._run)
        self._since_s = self._clock.now_s()

    def end(self) -> None:
        """Wait no more."""
        self._since_s = None

    def expect_machine(self) -> None:
        """The simulated board presses the key now: it comes soon, or is missing."""
        self._since_s, self._limit_s = self._clock.now_s(), MACHINE_LIMIT_S

    def hear(self) -> Pieces | None:
        """Return what came of one press, nothing where none did, None where it may still come."""
        if self._since_s is None:
            return None
        came: Pieces = self._ear.hear(self._since_s, self._run.step)
        if not came and not self._is_late(self._since_s):
            return None
        self._since_s, self._limit_s = self._clock.now_s(), self._wait_s
        return came

    def _is_late(self, since_s: float) -> bool:
        return self._limit_s is not None and self._clock.now_s() - since_s >= self._limit_s
