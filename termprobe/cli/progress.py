"""What a run shows while it goes on: on standard error, one line that changes on a console, one line a stage elsewhere."""

import sys

from termprobe.notation import visible
from termprobe.runner.events import Answered, LeftOpen, StepStarted, ObserverTrouble
from termprobe.verdict.model import FAIL


class Progress:
    """Listens to a run. `run` is set once the run exists; `stream` is written to."""

    def __init__(self, plan, stream=None):
        self.run = None
        self._plan, self._stream = plan, stream or sys.stderr
        self._changes = self._stream.isatty()
        self._titles = {stage.id: stage.title for stage in plan.stages}
        self._width = 0
        self._stage = None

    def __call__(self, event):
        if isinstance(event, StepStarted):
            self._started(event.step)
        elif isinstance(event, Answered):
            self._answered(event.step)
        elif isinstance(event, ObserverTrouble):
            self._line(
                f"{event.observer} could not answer: {visible(event.text)}"
                + ("; it is asked no more" if event.is_given_up else "")
            )
        elif isinstance(event, LeftOpen):
            self._status(f"{event.step.id}: unanswered")

    def end(self):
        """Clear the changing line."""
        self._status("")

    def _started(self, step):
        if step.stage != self._stage:
            self._stage = step.stage
            if not self._changes:
                self._line(self._titles[step.stage])
        place = [other.id for other in self._plan.steps].index(step.id) + 1
        self._status(
            f"{place} of {len(self._plan.steps)}  {self._titles[step.stage]}: {step.title}"
        )

    def _answered(self, step):
        verdict = self.run.verdict(step) if self.run else None
        if verdict and verdict.verdict == FAIL:
            self._line(
                f"FAIL  {step.id}: {verdict.evidence[0] if verdict.evidence else verdict.reason or step.title}"
            )

    def _status(self, text):
        if self._changes:
            text = visible(text)[:78]
            self._stream.write("\r" + text.ljust(self._width) + ("\r" if not text else ""))
            self._stream.flush()
            self._width = len(text)

    def _line(self, text):
        self._status("")
        self._stream.write(visible(text) + "\n")
        self._stream.flush()
