"""Volts on a wire: what an end drives, and what it takes them for."""

from typing import NamedTuple


class Levels(NamedTuple):
    """The levels of an end. A control line is ON at the level of a space."""

    mark_v: float
    space_v: float
    threshold_v: float
    """What it hears changes here; hysteresis is left out."""
    is_space_high: bool
    """A voltage above the threshold is a space."""

    def driven_v(self, is_space: bool) -> float:
        """Return the volts of a space, or of a mark."""
        if is_space:
            return self.space_v
        return self.mark_v

    def hears_space(self, volts: float | None) -> bool:
        """Tell what `volts` are taken for; None is a pin that nothing drives: a mark, OFF."""
        if volts is None:
            return False
        return (volts > self.threshold_v) == self.is_space_high


LEVELS = {
    "rs232": Levels(-9.0, 9.0, 1.3, True),
    "rs232-inverted": Levels(9.0, -9.0, 1.3, False),
    "ttl": Levels(5.0, 0.0, 1.4, False),
    "ttl-inverted": Levels(0.0, 5.0, 1.4, True),
}
"""Drivers and receivers of EIA-232 (data sheets of MC1488 and MAX232: threshold 1.3 V); a UART's
own pins, without or with one inverter before them.

TTL with an inverter is understood by most EIA-232 receivers, and so hides a supply that is missing.
"""
