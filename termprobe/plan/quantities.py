"""Readings and their limits as people write them: `153.6 kHz`, `5 V ± 5 %`, `at least 3 V`.

Units that take a prefix are known here by name; all others are written as they are.
"""

import math
from typing import NamedTuple

OVER_RANGE = math.inf
"""The reading of a meter that shows more than it can measure: nothing conducts."""
OVER_RANGE_SHOWN = "OL"
"""What the meter shows then."""
PREFIXES = {
    "p": -12,
    "n": -9,
    "u": -6,
    "\u00b5": -6,
    "\u03bc": -6,
    "m": -3,
    "": 0,
    "k": 3,
    "K": 3,
    "M": 6,
    "G": 9,
}
"""SI prefixes as powers of ten, u and K as commonly typed."""
BASES = {
    "v": "V",
    "a": "A",
    "hz": "Hz",
    "s": "s",
    "w": "W",
    "f": "F",
    "ohm": "ohm",
    "ohms": "ohm",
    "\u03c9": "ohm",
}
"""Units that take a prefix, by what may be typed for them in lower case."""
_WRITTEN = {-12: "p", -9: "n", -6: "\u00b5", -3: "m", 0: "", 3: "k", 6: "M", 9: "G"}
"""The prefix that is written for each power of ten."""
_NO_LARGER = ("s",)
"""Units that nobody writes thousands of with a prefix."""
WIDEST_TOLERANCE = 10
"""In percent: wider limits are written from edge to edge."""


class Unit(NamedTuple):
    """A unit that takes a prefix."""

    power: int
    """Of ten, that its prefix stands for."""
    base: str


class _Tolerance(NamedTuple):
    """Limits that are as far from a nominal value on both sides."""

    nominal: float
    percent: float


def unit_of(unit: str) -> Unit | None:
    """Return the Unit that `unit` names, None where it takes no prefix."""
    if unit.lower() in BASES:
        return Unit(0, BASES[unit.lower()])
    if unit[:1] in PREFIXES and unit[1:].lower() in BASES:
        return Unit(PREFIXES[unit[:1]], BASES[unit[1:].lower()])
    return None


def reading_in_words(value: float, unit: str) -> str:
    """Return `153.6 kHz` for 153600 and `Hz`, OL where a meter is over its range."""
    if value == OVER_RANGE:
        return OVER_RANGE_SHOWN
    shift, written = _scale(value, unit)
    return f"{_digits(value, shift)} {written}".rstrip()


def limits_in_words(low: float | None, high: float | None, unit: str) -> str:
    """Return `153.6 kHz ± 1 %`, `49 to 61 Hz`, `at least 3 V`; nothing where there is no limit."""
    if low is not None and high is not None:
        tolerance = _tolerance(low, high)
        if tolerance is None:
            return edges_in_words(low, high, unit)
        return f"{reading_in_words(tolerance.nominal, unit)} \u00b1 {tolerance.percent:g} %"
    if low is not None:
        return f"at least {reading_in_words(low, unit)}"
    if high is not None:
        return f"at most {reading_in_words(high, unit)}"
    return ""


def edges_in_words(low: float, high: float, unit: str) -> str:
    """Return `4.75 to 5.25 V`."""
    shift, written = _scale(max(low, high, key=abs), unit)
    return f"{_digits(low, shift)} to {_digits(high, shift)} {written}".rstrip()


def _tolerance(low: float, high: float) -> _Tolerance | None:
    """Return the limits by their middle, where people would write them so."""
    nominal = float(f"{(low + high) / 2:.4g}")
    if not nominal or low == high:
        return None
    percent = float(f"{(high - low) / 2 / abs(nominal) * 100:.2g}")
    distance = abs(nominal) * percent / 100
    is_exact = _is_about(low, nominal - distance) and _is_about(high, nominal + distance)
    if percent > WIDEST_TOLERANCE or not is_exact:
        return None
    return _Tolerance(nominal, percent)


def _is_about(value: float, other: float) -> bool:
    return f"{value:.6g}" == f"{other:.6g}"


def _scale(value: float, unit: str) -> tuple[int, str]:
    """Return the power of ten that `value` is divided by, and the unit that it then has."""
    known = unit_of(unit)
    if known is None:
        return 0, unit
    size = abs(float(f"{value:.6g}"))
    shift = 0
    while size >= 1000 * 10**shift and known.base not in _NO_LARGER and _has(known, shift + 3):
        shift += 3
    while 0 < size < 10 ** (shift - 3) and _has(known, shift - 3):
        shift -= 3
    return (shift, _WRITTEN[known.power + shift] + known.base) if shift else (0, unit)


def _has(unit: Unit, shift: int) -> bool:
    return unit.power + shift in _WRITTEN


def _digits(value: float, shift: int) -> str:
    return f"{value / 10**shift:.6g}"
