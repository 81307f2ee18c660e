"""Readings of instruments beside their limits. Pure."""

import math
from typing import NamedTuple

from termprobe.plan.model import Measure, Step
from termprobe.plan.quantities import reading_in_words
from termprobe.report.earlier_words import re_answered
from termprobe.report.facts.tones import tone_of
from termprobe.verdict.model import Measured, StepVerdict

NOT_MEASURED, NO_LIMITS = "not measured", "none given"
MARGIN = 0.15
"""Of a scale on each side of what must be on it."""


class Scale(NamedTuple):
    """Where a reading and its limits lie on a line, each from 0 to 1."""

    low: float
    high: float
    at: float


class ReadingFacts(NamedTuple):
    """A reading beside its limits."""

    title: str
    reading: str
    limits: str
    verdict: str
    tone: str
    source: str
    re_answered: str
    scale: Scale | None
    """None where nothing was measured, or there are no limits."""


def reading_facts(step: Step, verdict: StepVerdict) -> ReadingFacts | None:
    """Return the reading of a step with its limits; None of a step that asks for none."""
    if not isinstance(step, Measure) or step.not_fitted:
        return None
    value, source = None, step.source or ""
    if isinstance(verdict.because, Measured):
        value, source = verdict.because.value, verdict.because.source or source
    reading = NOT_MEASURED
    if value is not None:
        reading = reading_in_words(value, step.unit)
    return ReadingFacts(
        verdict.title,
        reading,
        step.limits_with_edges or NO_LIMITS,
        verdict.verdict,
        tone_of(verdict.verdict),
        source,
        re_answered(verdict),
        scale_of(value, step.low, step.high),
    )


def scale_of(value: float | None, low: float | None, high: float | None) -> Scale | None:
    """Return where a reading lies between limits, of which one may be missing."""
    known = [end for end in (low, high) if end is not None]
    if value is None or not known or not all(map(math.isfinite, (value, *known))):
        return None
    first, last = min(value, *known), max(value, *known)
    room = (last - first or abs(last) or 1.0) * MARGIN
    start, length = first - room, last - first + 2 * room
    ends = [0.0, 1.0]
    if low is not None:
        ends[0] = (low - start) / length
    if high is not None:
        ends[1] = (high - start) / length
    return Scale(ends[0], ends[1], (value - start) / length)
