"""Waits on the line for the press of a key of the board."""

from termprobe.observer.press import PRESS_LIMIT_S
from termprobe.observer.quick_ear import HeardPress, QuickEar
from termprobe.plan.model import KeyPress
from termprobe.runner.run import Run


class PressWait:
    """Waits for one press after another, on the line of `run`.

    A press that does not come within `wait_s` is missing; None waits for ever.
    """

    def __init__(self, run: Run, wait_s: float | None) -> None:
        self._run, self._wait_s = run, wait_s
        self._codes = [code for code, _ in run.plan.key_codes]
        self._ear = QuickEar(run, self._codes)
        self._step: KeyPress | None = None
        """What is waited for; None while nothing is."""

    @property
    def is_on(self) -> bool:
        """Whether a press is waited for."""
        return self._ear.is_waiting

    def begin(self, step: KeyPress) -> None:
        """Wait for the press `step`.

        What comes between two presses is of the next one, for a hand may be quicker than the
        console.
        """
        earlier = self._run.begin(step)
        if self.is_on:
            self._ear.keep(earlier)
        else:
            self._ear = QuickEar(self._run, self._codes)
        self._step = step
        self._ear.wait_for(step.press, self._wait_s)

    def end(self) -> None:
        """Wait no more."""
        self._step = None
        self._ear.rest()

    def expect_machine(self) -> None:
        """The simulated board presses the key now: it comes soon, or is missing."""
        if self._step is not None:
            self._ear.wait_for(self._step.press, PRESS_LIMIT_S, is_quick=False)

    def hear(self) -> HeardPress | None:
        """Return what came of one press, nothing where none did, None where it may still come."""
        if self._step is None:
            return None
        heard = self._ear.listen()
        if heard is not None and not heard.is_more:
            self._ear.wait_for(self._step.press, self._wait_s)
        return heard
