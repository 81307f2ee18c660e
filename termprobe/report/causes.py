"""Steps that failed for one cause, by a known fault, or by the first suspect."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from termprobe.verdict.model import FAIL, RunVerdict

if TYPE_CHECKING:
    from termprobe.diagnosis.model import Diagnosis

FEWEST = 2
"""Fewer steps are told one by one."""


@dataclass(frozen=True)
class CommonCause:
    """One fault, and the steps that failed just as it predicts."""

    fault: str
    title: str
    steps: tuple[str, ...]
    """Ids, in the order of the plan."""


def common_causes(verdict: RunVerdict, diagnosis: "Diagnosis | None") -> tuple[CommonCause, ...]:
    """Return the causes of what failed that are told in one line each.

    What a known fault has caused is not asked of the diagnosis again.
    """
    if verdict.known_faults:
        return tuple(_of_known_faults(verdict))
    if diagnosis is None or not diagnosis.is_explained or not diagnosis.suspects:
        return ()
    first = diagnosis.suspects[0]
    steps = [step.id for step in verdict.steps if step.verdict == FAIL]
    steps = [step for step in steps if step in first.supports]
    if len(steps) < FEWEST:
        return ()
    return (CommonCause(first.faults[0], first.title, tuple(steps)),)


def _of_known_faults(verdict: RunVerdict) -> Iterator[CommonCause]:
    for fault in verdict.known_faults:
        steps = [step.id for step in verdict.steps if step.known_fault == fault.fault]
        if steps:
            yield CommonCause(fault.fault, fault.title, tuple(steps))
