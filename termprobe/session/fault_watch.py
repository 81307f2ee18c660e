"""Looks for the fault behind what has failed, in a thread of its own.

Neither the line nor the console waits for it: which fault it is takes up to a few seconds.
"""

import threading
from collections.abc import Callable, Sequence

from termprobe.journal.records import Record
from termprobe.plan.model import Look, Step
from termprobe.runner.known_fault import NO_PROSPECT, Foresight
from termprobe.runner.run import Run
from termprobe.session.messages import Prospected, Trouble
from termprobe.verdict.model import FAIL, RunVerdict


class FaultWatch:
    """Watches `run`, and posts what can be said of the cause once a look has failed.

    after() is called from the thread that owns the run, `post` from one of this watch.
    """

    def __init__(self, run: Run, post: Callable[[Prospected | Trouble], None]) -> None:
        self._run, self._post = run, post
        self._thread: threading.Thread | None = None
        self._prospect = NO_PROSPECT

    def after(self, step: Step) -> None:
        """Begin to look for the cause, where the answer to `step` can tell of it.

        While a search goes on none is begun; the next look that fails begins one.
        """
        foresight = self._run.foresight
        if foresight is None or not isinstance(step, Look) or not self._is_telling(step):
            return
        if self._thread is not None and self._thread.is_alive():
            return
        known = tuple(self._run.journal.records), self._run.verdicts()
        self._thread = threading.Thread(
            name="cause", target=self._search, args=(foresight, *known), daemon=True
        )
        self._thread.start()

    def join(self) -> None:
        """Wait until no search goes on."""
        if self._thread is not None:
            self._thread.join()

    def _is_telling(self, step: Step) -> bool:
        return self._run.verdict(step).verdict == FAIL or self._prospect.next is not None

    def _search(self, foresight: Foresight, records: Sequence[Record], verdict: RunVerdict) -> None:
        try:
            self._prospect = foresight.prospect(records, verdict)
            self._post(Prospected(self._prospect))
        except Exception as error:  # pylint: disable=broad-except
            self._post(Trouble(error))
