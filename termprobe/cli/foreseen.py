"""What a look may show where it is not right, for whoever is at the bench."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from termprobe.cli.bench import Bench
from termprobe.errors import UsageError
from termprobe.journal.records import Record
from termprobe.plan.model import Look
from termprobe.verdict.known_fault import known_faults
from termprobe.verdict.model import RunVerdict

if TYPE_CHECKING:
    from termprobe.session.foresight import Predict
    from termprobe.terminal.predicted import Predictions


def predictor(bench: Bench) -> Predict | None:
    """Return what predicts a look of the bench's plan; None where no board can be simulated.

    It may take long: the fault dictionary of the plan is worked out where it is not kept.
    """
    looks = [step for step in bench.plan.steps if isinstance(step, Look) and not step.not_fitted]
    if bench.profile.circuit is None or not looks:
        return None
    from termprobe.cli.kept_dictionary import dictionary_beside  # these two load diagnosis
    from termprobe.diagnosis.pictures import pictures

    profile, plan = bench.profile, bench.plan
    try:
        dictionary = dictionary_beside(plan, profile, bench.profile_text)
    except UsageError:
        return None

    def predict(step_id: str, records: Sequence[Record], verdict: RunVerdict) -> Predictions | None:
        if known_faults(records):  # the screen that is expected is not the plan's any more
            return None
        return pictures(profile, plan, records, verdict, dictionary, step_id)

    return predict
