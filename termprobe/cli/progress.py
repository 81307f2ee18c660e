"""What a run shows while it goes on: on a console a line that changes, elsewhere one a stage."""

from typing import TextIO

from termprobe.folding import folded
from termprobe.journal.asked_again import AskedAgain
from termprobe.journal.attention import AttentionChecked
from termprobe.journal.records import Answered, StepBegun
from termprobe.notation import visible
from termprobe.plan.model import Plan, Step
from termprobe.report import walk_words, words
from termprobe.runner.run import Run
from termprobe.runner.told import (
    GoneBack,
    LeftOpen,
    ObserverTrouble,
    RunEvent,
    SearchBegun,
    SwitchOff,
)
from termprobe.verdict.model import FAIL

WIDTH = 78
"""Of the line that changes."""
LINE_WIDTH, INDENT = 80, 6
"""Of the lines that stay, and of what does not fit on the first."""


class Progress:
    """Listens to a run and writes to `stream`. `run` is set once the run exists."""

    def __init__(self, plan: Plan, stream: TextIO) -> None:
        self.run: Run | None = None
        self._plan, self._stream = plan, stream
        self._is_console = stream.isatty()
        self._titles = {stage.id: stage.title for stage in plan.stages}
        self._width = 0
        self._stage: str | None = None

    def __call__(self, event: RunEvent) -> None:
        """Show what has happened."""
        match event:
            case StepBegun(step=step_id) if step_id in self._plan.index:
                self._started(self._plan.step(step_id))
            case Answered(step=step_id):
                self._answered(self._plan.step(step_id))
            case SearchBegun():
                self._status(walk_words.SEARCHING)
            case AttentionChecked():
                self._lines("", f"{walk_words.of_check(event)}.")
            case ObserverTrouble():
                self._troubled(event)
            case SwitchOff(step=step):
                self._lines(
                    "",
                    f"SWITCH OFF NOW: {step.id} failed, and its rule is to switch off if "
                    f"{step.stop_if}. Nothing more is sent; the run stops here",
                )
            case AskedAgain(step=step_id):
                self._lines("", f"{step_id}: {walk_words.LOOK_ONCE_MORE}")
            case GoneBack(verdict):
                self._lines("", walk_words.of_answer_before(verdict))
            case LeftOpen(step=step):
                self._status(f"{step.id}: unanswered")

    def end(self) -> None:
        """Clear the changing line."""
        self._status("")

    def _started(self, step: Step) -> None:
        if step.stage != self._stage:
            self._stage = step.stage
            if not self._is_console:
                self._lines("", self._titles[step.stage])
        fitted = [one.id for one in self._plan.steps if not one.not_fitted]
        number, count = fitted.index(step.id) + 1, len(fitted)
        self._status(f"{number} of {count}  {self._titles[step.stage]}: {step.title}")

    def _answered(self, step: Step) -> None:
        if self.run is None:
            return
        verdict = self.run.verdict(step)
        if verdict.verdict == FAIL:
            why = next(iter(words.evidence(verdict)), "") or words.reason(verdict) or step.title
            self._lines(f"FAIL  {step.id}: ", why)

    def _troubled(self, event: ObserverTrouble) -> None:
        text = f"{event.observer} could not answer: {event.text}"
        if event.is_given_up:
            text += "; it is asked no more"
        self._lines("", text)

    def _status(self, text: str) -> None:
        """Write `text` over the line that changes; nothing clears it."""
        if not self._is_console:
            return
        text = visible(text)[:WIDTH]
        self._stream.write("\r" + text.ljust(self._width))
        if not text:
            self._stream.write("\r")
        self._stream.flush()
        self._width = len(text)

    def _lines(self, first: str, text: str) -> None:
        """Write `first` and `text` on lines that stay, those behind the first indented."""
        self._status("")
        for line in folded(first, text, LINE_WIDTH, INDENT):
            self._stream.write(line + "\n")
        self._stream.flush()
