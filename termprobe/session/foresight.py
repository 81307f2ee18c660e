"""The thread that works out what a look may show where it is not right, while the builder looks.

It keeps neither the console nor the line waiting. What is not there in time is done without.
"""

import queue
import threading
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from termprobe.journal.records import Record
from termprobe.plan.model import Look, Step
from termprobe.runner.run import Run
from termprobe.session import messages
from termprobe.session.worker import Post
from termprobe.terminal.predicted import Predictions
from termprobe.verdict.model import RunVerdict

Predict = Callable[[str, Sequence[Record], RunVerdict], Predictions | None]
"""Returns what a look, by its id, may show at this point of a run."""
FAILED = "what faults would show cannot be worked out ({error}): mark what differs"


@dataclass(frozen=True)
class Question:
    """What is asked: a look that has just been sent."""

    step_id: str
    records: tuple[Record, ...]
    verdict: RunVerdict


class PictureForesight(threading.Thread):
    """Stands between a worker and `post`, which takes its events.

    `prepare()` returns what predicts, or None where nothing can be predicted. It is called from
    this thread, and may take long.
    """

    def __init__(self, post: Post, prepare: Callable[[], Predict | None]) -> None:
        super().__init__(name="foresight", daemon=True)
        self._post, self._prepare = post, prepare
        self._run: Run | None = None
        self._questions: queue.Queue[Question | None] = queue.Queue()

    def watch(self, run: Run) -> None:
        """Take what is known of the board from `run` from now on."""
        self._run = run

    def tell(self, event: messages.WorkerEvent | messages.Trouble) -> None:
        """Pass an event of the worker on, from its thread; a look that is shown is asked about."""
        self._post(event)
        if isinstance(event, messages.Shown) and self._run is not None:
            self.ask(self._run, self._run.plan.step(event.step_id))

    def ask(self, run: Run, step: Step) -> None:
        """Ask what `step` may show where it is a look; a Foreseen is posted once that is known."""
        if isinstance(step, Look) and step.expected is not None:
            records = tuple(run.journal.records)
            self._questions.put(Question(step.id, records, run.verdicts()))

    def end(self) -> None:
        """Let the thread end once it has nothing to do; it is not waited for."""
        self._questions.put(None)

    def run(self) -> None:
        """Answer questions, of several the last one, until end()."""
        try:
            self._answer_all()
        except Exception as error:  # pylint: disable=broad-except
            self._post(messages.Told(FAILED.format(error=error)))

    def _answer_all(self) -> None:
        predict = self._prepare()
        question = self._newest()
        while predict is not None and question is not None:
            found = predict(question.step_id, question.records, question.verdict)
            if found is not None:
                self._post(messages.Foreseen(found))
            question = self._newest()

    def _newest(self) -> Question | None:
        """Wait for a question; return the last one that is there."""
        question = self._questions.get()
        while question is not None and not self._questions.empty():
            question = self._questions.get()
        return question
