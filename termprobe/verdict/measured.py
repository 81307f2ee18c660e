"""A reading against the limits of its step."""

from dataclasses import replace

from termprobe.plan.model import Measure
from termprobe.verdict.model import FAIL, PASS, Measured, StepVerdict


def measured(verdict: StepVerdict, step: Measure, value: float | None) -> StepVerdict:
    """Return `verdict` by the reading `value`, None where nothing was measured."""
    is_inside = value is not None and step.allows(value)
    unusual = ""
    if value is not None and is_inside and not step.usual.holds(value):
        unusual = step.usual.in_words(step.unit)
    because = Measured(value, step.unit, step.limits, is_inside, step.source or "", unusual)
    if value is None:
        return replace(verdict, because=because)
    return replace(verdict, verdict=PASS if is_inside else FAIL, because=because)
