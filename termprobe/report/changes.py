"""What has changed since the run that a run comes after: facts, by its own run file alone. Pure."""

from collections.abc import Iterable
from dataclasses import dataclass

from termprobe.journal.comes_after import ComesAfter
from termprobe.journal.records import Record
from termprobe.verdict.model import FAIL, PASS, RunVerdict


@dataclass(frozen=True)
class Changes:
    """Ids of steps by what they showed in the run before and show now, in the order of the plan."""

    after: ComesAfter
    """The run before."""
    mended: tuple[str, ...] = ()
    """They failed then and pass now."""
    still_failing: tuple[str, ...] = ()
    """They failed then and fail now."""
    new_faults: tuple[str, ...] = ()
    """They passed then and fail now."""
    first_known: tuple[str, ...] = ()
    """They fail now, and had no verdict then or were another step."""
    not_proven: tuple[str, ...] = ()
    """They failed then, and neither pass nor fail by now: not asked again yet, or left open."""
    waiting: int = 0
    """How many passed then and neither pass nor fail by now."""


def changes_since(records: Iterable[Record], verdict: RunVerdict) -> Changes | None:
    """Return what has changed in a run with this verdict; None where it comes after no other."""
    after = next((record for record in records if isinstance(record, ComesAfter)), None)
    if after is None:
        return None
    failed, passed = set(after.failed), set(after.passed)
    passes = [step.id for step in verdict.steps if step.verdict == PASS]
    fails = [step.id for step in verdict.steps if step.verdict == FAIL]
    others = [step.id for step in verdict.steps if step.verdict not in (PASS, FAIL)]
    return Changes(
        after,
        mended=tuple(step for step in passes if step in failed),
        still_failing=tuple(step for step in fails if step in failed),
        new_faults=tuple(step for step in fails if step in passed),
        first_known=tuple(step for step in fails if step not in failed | passed),
        not_proven=tuple(step for step in others if step in failed),
        waiting=sum(step in passed for step in others),
    )
