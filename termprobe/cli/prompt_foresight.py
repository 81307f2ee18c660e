"""What a look may show where it is not right, worked out while the builder reads a prompt."""

from collections.abc import Callable

from termprobe.plan.model import Step
from termprobe.runner.run import Run
from termprobe.session.foresight import PictureForesight, Predict
from termprobe.session.messages import Foreseen, Trouble, WorkerEvent
from termprobe.terminal.predicted import Predictions


class PromptForesight:
    """The Foreseer of a run at plain prompts; `prepare` is as for a PictureForesight."""

    def __init__(self, run: Run, prepare: Callable[[], Predict | None]) -> None:
        self._run = run
        self._latest: Predictions | None = None
        self._foresight = PictureForesight(self._take, prepare)
        self._foresight.start()

    def begin(self, step: Step) -> None:
        """Begin to work out what `step` may show."""
        self._latest = None
        self._foresight.ask(self._run, step)

    def found(self, step: Step) -> Predictions | None:
        """Return what is known of `step` by now."""
        latest = self._latest
        if latest is None or latest.step_id != step.id:
            return None
        return latest

    def _take(self, event: WorkerEvent | Trouble) -> None:
        """Keep what was predicted, from the other thread; what cannot be is done without."""
        if isinstance(event, Foreseen):
            self._latest = event.predictions
