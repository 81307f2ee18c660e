"""What a run knows of boards with faults: by the fault dictionary, once a look has failed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from termprobe.cli.bench import Bench
from termprobe.journal.kept import ShownWithFaults
from termprobe.journal.records import Record
from termprobe.plan.model import Look, Step
from termprobe.report.suspects import probe_sentences
from termprobe.runner.known_fault import NO_PROSPECT, NamedFault, Prospect, answers_to
from termprobe.verdict.known_fault import known_faults
from termprobe.verdict.model import RunVerdict

if TYPE_CHECKING:
    from termprobe.diagnosis.dictionary import FaultDictionary
    from termprobe.diagnosis.naming import NamedCause

FEWEST_LOOKS = 2


class DictionaryForesight:
    """Knows the boards of the bench's profile, which has a circuit."""

    def __init__(self, bench: Bench, is_until_sure: bool = False) -> None:
        self._profile, self._plan = bench.profile, bench.plan
        self._profile_text = bench.profile_text
        self._is_until_sure = is_until_sure
        self._loaded: FaultDictionary | None = None

    def load(self) -> FaultDictionary | None:
        """Return the fault dictionary of the plan; None where no board can be simulated.

        It is loaded, or worked out, when it is first asked for: where that takes longer than a
        moment, a line on standard error says so.
        """
        from termprobe.cli.kept_dictionary import dictionary_if_simulated

        if self._loaded is None:
            found = dictionary_if_simulated(self._plan, self._profile, self._profile_text)
            self._loaded = found
        return self._loaded

    def prospect(self, records: Sequence[Record], verdict: RunVerdict) -> Prospect:
        """Return what can be said of the cause, by all that was answered."""
        from termprobe.diagnosis.naming import name_cause

        dictionary = self.load()
        if dictionary is None:
            return NO_PROSPECT
        found = name_cause(
            self._profile, self._plan, records, verdict, dictionary, self._is_until_sure
        )
        answers = answers_to(found.next, verdict)
        return Prospect(found.cause and _named(found.cause), found.next, answers)

    def shown(
        self, records: Sequence[Record], step: Step, faults: Sequence[str]
    ) -> ShownWithFaults | None:
        """Return what a board with `faults` shows for `step`; None for what the plan expects."""
        from termprobe.diagnosis.foreseen import foreseen

        return foreseen(self._profile, self._plan, records, step, faults)


def foresight_at(bench: Bench, is_until_sure: bool = False) -> DictionaryForesight | None:
    """Return what knows the boards of the bench.

    It is None where none can be simulated, and where too few looks are asked to name a fault.
    `is_until_sure` tells that nobody is asked about the fault that is named.
    """
    looks = [step for step in bench.plan.steps if isinstance(step, Look) and not step.not_fitted]
    if bench.profile.circuit is None or len(looks) < FEWEST_LOOKS:
        return None
    return DictionaryForesight(bench, is_until_sure)


def has_known_faults(bench: Bench) -> bool:
    """Return whether the run that goes on has known faults, which change its screens."""
    return bool(known_faults(bench.records))


def _named(cause: NamedCause) -> NamedFault:
    told = tuple(probe_sentences(cause.probe)) if cause.probe else ()
    return NamedFault(
        cause.fault,
        cause.alike,
        cause.title,
        cause.explains,
        cause.hidden,
        told,
        cause.is_foreseen,
    )
