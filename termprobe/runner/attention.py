"""Attention checks in a run: a wrong screen in the place of a look, before the look itself.

What is answered to it never counts for or against the board.
"""

from termprobe.journal.attention import AttentionChecked
from termprobe.journal.kept import KeptPhoto
from termprobe.journal.records import Answer
from termprobe.plan.model import Step
from termprobe.runner.fault_naming import is_seen_by_eyes
from termprobe.runner.run import Run
from termprobe.runner.torn import drawn_first
from termprobe.verdict.known_fault import known_faults

OF_CHECK = "of a wrong screen shown on purpose: "
"""So begins a remark made in an attention check."""


class Attention:
    """Makes the checks of `run`, each once."""

    def __init__(self, run: Run) -> None:
        self._run = run
        self._shown: str | None = None
        """Id of the look in whose place a wrong screen is shown now."""
        self.pace = 1.0
        """At which it was sent last."""

    def show(self, step: Step, pace: float = 1.0) -> bool:
        """Send a wrong screen in the place of `step` where one is due; return whether it was.

        Raises LinkError.
        """
        self.drop()
        if not self.is_due(step):
            return False
        self._run.perform(step, pace, instead=self._run.wrong_looks[step.id])
        self._shown, self.pace = step.id, pace
        return True

    def is_due(self, step: Step) -> bool:
        """Return whether a wrong screen is still to be shown in the place of `step`.

        It is not where the look has an answer, where others than eyes look, where the screen goes
        on from one drawn with other options, and where the board has a known fault: what it then
        shows of a wrong screen is not known.
        """
        run = self._run
        if step.id not in run.wrong_looks or not is_seen_by_eyes(run, step):
            return False
        if drawn_first(run.plan, step, None):
            return False
        records = run.journal.records
        is_checked = any(
            isinstance(one, AttentionChecked) and one.step == step.id for one in records
        )
        return not (is_checked or run.verdict(step).answers or known_faults(records))

    def take(self, step: Step, answer: Answer) -> AttentionChecked | None:
        """Write down `answer` where it was given to a wrong screen; return the record, or None."""
        if self._shown != step.id:
            return None
        self.drop()
        checked = self._run.journal.append(AttentionChecked(step.id, answer))
        self._run.tell(checked)
        return checked

    def note(self, text: str, step: Step | None, photo: KeptPhoto | None = None) -> None:
        """Write a remark down; one made of a wrong screen says so, as it is none of the board."""
        if step is not None and self._shown == step.id:
            text = f"{OF_CHECK}{text}"
        self._run.note(text, step, photo)

    def drop(self) -> None:
        """Take note that no wrong screen is shown any more: something else was sent."""
        self._shown = None
