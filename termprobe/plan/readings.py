"""What a reading must be: limits, what is usual within them, and what can be read at all."""

from dataclasses import dataclass, replace
from typing import NamedTuple, Self, TypeVar

from termprobe.plan.quantities import OVER_RANGE, edges_in_words, limits_in_words
from termprobe.script.model import ScriptStep, Span


class Band(NamedTuple):
    """Readings from `low` to `high`, both included; None where there is no such end."""

    low: float | None = None
    high: float | None = None

    def holds(self, value: float) -> bool:
        """Return whether `value` lies within."""
        is_high_enough = self.low is None or value >= self.low
        return is_high_enough and (self.high is None or value <= self.high)

    def within(self, other: "Band") -> "Band":
        """Return what lies in both."""
        lows = [low for low in (self.low, other.low) if low is not None]
        highs = [high for high in (self.high, other.high) if high is not None]
        return Band(max(lows, default=None), min(highs, default=None))

    def times(self, factor: float) -> "Band":
        """Return the range with both its ends multiplied."""
        return Band(*(end if end is None else end * factor for end in self))

    def in_words(self, unit: str) -> str:
        """Return `5 V ± 5 %`, `49 to 61 Hz`, `at least 3 V`; nothing where it has no end."""
        return limits_in_words(self.low, self.high, unit)

    def with_edges(self, unit: str) -> str:
        """Return the same, both edges first, as an instrument shows them."""
        told = self.in_words(unit)
        if self.low is None or self.high is None:
            return told
        edges = edges_in_words(self.low, self.high, unit)
        return told if edges == told else f"{edges}, that is {told}"


ANY = Band()
"""Holds every reading."""


@dataclass(frozen=True)
class Limits:
    """What is known of a reading before it is taken; fields of a step."""

    unit: str = ""
    low: float | None = None
    high: float | None = None
    """Limits, themselves allowed; None where there is none. Of several ranges, the outermost."""
    ranges: tuple[Band, ...] = ()
    """Where the board must keep to one of several ranges: these."""
    usual: Band = ANY
    """Within the limits but outside this, a reading passes with a warning."""
    possible: Band = ANY
    """What the instrument can show; anything else is no reading."""
    has_over_range: bool = False
    """OL is a reading, OVER_RANGE."""

    @property
    def limits(self) -> str:
        """The limits in words, `5 V ± 5 %`, `at least 3 V`; empty where there are none."""
        return " or ".join(one.in_words(self.unit) for one in self._allowed)

    @property
    def limits_with_edges(self) -> str:
        """The limits in words, both edges of each range first, as an instrument shows them."""
        return ", or ".join(one.with_edges(self.unit) for one in self._allowed)

    @property
    def best(self) -> Band:
        """What a good board reads: within all of these, and the first of several ranges."""
        return self._allowed[0].within(self.usual).within(self.possible)

    @property
    def _allowed(self) -> tuple[Band, ...]:
        return self.ranges or (Band(self.low, self.high),)

    def allows(self, value: float) -> bool:
        """Return whether a reading lies within the limits, the limits included."""
        return any(one.holds(value) for one in self._allowed)

    def is_reading(self, value: float) -> bool:
        """Return whether the instrument can show `value` there."""
        if value == OVER_RANGE:
            return self.has_over_range
        return self.possible.holds(value)

    def times(self, factor: float) -> Self:
        """Return the step with all of these multiplied."""
        outer = Band(self.low, self.high).times(factor)
        return replace(
            self,
            low=outer.low,
            high=outer.high,
            ranges=tuple(one.times(factor) for one in self.ranges),
            usual=self.usual.times(factor),
            possible=self.possible.times(factor),
        )


Limited = TypeVar("Limited", bound=Limits)


def limited(record: Limited, step: ScriptStep) -> Limited:
    """Return `record` with the limits that a step of a script gives."""
    spans = step.ranges or (step,)
    lows = [span.low for span in spans if span.low is not None]
    highs = [span.high for span in spans if span.high is not None]
    return replace(
        record,
        unit=str(step.unit),
        low=min(lows, default=None),
        high=max(highs, default=None),
        ranges=tuple(map(_range, step.ranges)),
        usual=_range(step.usual),
        possible=_range(step.possible),
        has_over_range=step.over_range,
    )


def _range(span: Span | None) -> Band:
    if span is None:
        return ANY
    return Band(span.low, span.high)
