"""What a person types for a reading, with or without its unit: `4.9`, `4.9 V`, `4900 mV`."""

import re
from decimal import Decimal

from termprobe.journal.records import AS_EXPECTED, DIFFERS, Answer
from termprobe.plan.model import Measure
from termprobe.plan.readings import OVER_RANGE, OVER_RANGE_SHOWN

OVER_RANGE_WORDS = (OVER_RANGE_SHOWN, "O.L", "0L", "0.L")
"""What meters show over their range, and how it is read off them."""
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
_READING = re.compile(r"([+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]{1,2})?)\s*(\S*)")


def parse_reading(text: str, unit: str = "") -> float:
    """Return the reading in `text` in `unit`, a bare number where that is empty.

    Raises ValueError with what must be typed.
    """
    match = _READING.fullmatch(text.strip().replace("\u2212", "-"))
    if not match or len(text) > 40:
        example = f"4.9 {unit}".rstrip()
        what = f"a number, with a point and its unit if you like ({example})"
        raise ValueError(f"a reading must be {what}, not {text.strip()[:40]!r}")
    number, typed = Decimal(match[1]), match[2]
    if not typed or typed == unit:
        return float(number)
    wanted, given = _split(unit), _split(typed)
    if given is None or wanted is None or given[1] != wanted[1]:
        raise ValueError(f"the unit must be {unit or 'left out'}, not {typed!r}")
    return float(number.scaleb(given[0] - wanted[0]))


def _split(unit: str) -> tuple[int, str] | None:
    """Return (power of ten, base unit), or None where the unit is not known."""
    if unit.lower() in BASES:
        return 0, BASES[unit.lower()]
    if unit[:1] in PREFIXES and unit[1:].lower() in BASES:
        return PREFIXES[unit[:1]], BASES[unit[1:].lower()]
    return None


def reading_of(step: Measure, text: str) -> float:
    """Return the reading of `step` in `text`, OVER_RANGE for the OL of a meter.

    Raises ValueError with what must be typed, also where no instrument can show that there.
    """
    if text.strip().upper() in OVER_RANGE_WORDS:
        value = OVER_RANGE
    else:
        value = parse_reading(text, step.unit)
    if not step.is_reading(value):
        raise ValueError(f"a reading here must be {_can_be(step)}, not {text.strip()[:40]!r}")
    return value


def _can_be(step: Measure) -> str:
    """Return what the instrument can show, in words."""
    numbers = step.possible.in_words(step.unit) or "a number"
    if step.has_over_range:
        return f"{numbers}, or {OVER_RANGE_SHOWN}"
    return numbers


def wanted_reading(step: Measure, source: str = "") -> str:
    """Return what the reading must be, in one sentence; `source` is told behind its limits."""
    if not step.limits:
        return "It is noted; there are no limits."
    beside = f" ({source})" if source else ""
    return f"It must read {step.limits}{beside}."


def answer_of_reading(step: Measure, value: float) -> Answer:
    """Return the Answer that a reading is: as expected within its limits, or where it has none."""
    return Answer(AS_EXPECTED if step.allows(value) else DIFFERS, value=value)
