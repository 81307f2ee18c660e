"""How long it took from the first look that differed until the cause was known. Pure."""

from collections.abc import Collection, Iterable
from datetime import datetime
from typing import NamedTuple

from termprobe.journal.known_fault import FaultNamed
from termprobe.journal.records import Answered, Record, Resumed
from termprobe.plan.model import Look, Plan


class TimeToCause(NamedTuple):
    """Of one run."""

    looks: int
    """Looks that were answered, the one that differed first included."""
    minutes: float
    """Nights and weekends between two sittings left out."""
    is_named: bool
    """A fault was named in the run; else it is all until the run's end."""


def time_to_cause(
    plan: Plan, records: Iterable[Record], failed: Collection[str]
) -> TimeToCause | None:
    """Return how long it took until a fault was named; None where no look failed.

    `records` are those of a run of `plan`, `failed` the ids of the steps that failed in it.
    """
    looks, seconds = 0, 0.0
    before = ""
    for record in records:
        if isinstance(record, FaultNamed) and looks:
            return TimeToCause(looks, seconds / 60, True)
        if isinstance(record, Resumed):
            before = ""
        if isinstance(record, Answered):
            is_look = record.step in plan.index and isinstance(plan.step(record.step), Look)
            if looks:
                seconds += _seconds_between(before, record.at)
            looks += is_look and (looks > 0 or record.step in failed)
            before = record.at
    return TimeToCause(looks, seconds / 60, False) if looks else None


def _seconds_between(before: str, at: str) -> float:
    """Return the seconds between two dates of ISO 8601; 0 where one is none, or earlier."""
    try:
        passed = datetime.fromisoformat(at) - datetime.fromisoformat(before)
    except (TypeError, ValueError):
        return 0.0
    return max(passed.total_seconds(), 0.0)
