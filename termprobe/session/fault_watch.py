"""Looks for the fault behind what has failed, in a thread of its own.

Neither the line nor the console waits for it: which fault it is takes up to a few seconds.
"""

import threading
from collections.abc import Callable, Sequence

from termprobe.journal.records import Record
from termprobe.plan.model import Look, Step
from termprobe.runner.known_fault import NO_PROSPECT
from termprobe.runner.run import Run
from termprobe.session.messages import Prospected, Trouble
from termprobe.verdict.model import FAIL, RunVerdict

KnownOfRun = tuple[Sequence[Record], RunVerdict]
"""What was answered, and what it shows."""


class FaultWatch:
    """Watches `run`, and posts what can be said of the cause once a look has failed.

    after() is called from the thread that owns the run, `post` from one of this watch.
    """

    def __init__(self, run: Run, post: Callable[[Prospected | Trouble], None]) -> None:
        self._run, self._post = run, post
        self._thread: threading.Thread | None = None
        self._lock = threading.Lock()
        self._is_searching = False
        self._known: KnownOfRun | None = None
        """By what is to be searched next."""
        self._prospect = NO_PROSPECT

    def after(self, step: Step) -> None:
        """Begin to look for the cause, where the answer to `step` can tell of it.

        While a search goes on the next one waits; only the latest answers are then searched by.
        """
        if not isinstance(step, Look) or not self._is_telling(step):
            return
        with self._lock:
            self._known = tuple(self._run.journal.records), self._run.verdicts()
            if self._is_searching:
                return
            self._is_searching = True
        self._thread = threading.Thread(name="cause", target=self._search_on, daemon=True)
        self._thread.start()

    def join(self) -> None:
        """Wait until no search goes on."""
        if self._thread is not None:
            self._thread.join()

    def _is_telling(self, step: Step) -> bool:
        is_helping = self._prospect.next is not None
        is_telling = is_helping or self._run.verdict(step).verdict == FAIL
        return is_telling and self._run.foresight is not None

    def _search_on(self) -> None:
        """Search until no newer answers wait."""
        while (known := self._take_known()) is not None:
            self._search(*known)

    def _take_known(self) -> KnownOfRun | None:
        with self._lock:
            known, self._known = self._known, None
            self._is_searching = known is not None
            return known

    def _search(self, records: Sequence[Record], verdict: RunVerdict) -> None:
        assert self._run.foresight is not None
        try:
            self._prospect = self._run.foresight.prospect(records, verdict)
            self._post(Prospected(self._prospect))
        except Exception as error:  # pylint: disable=broad-except
            self._post(Trouble(error))
