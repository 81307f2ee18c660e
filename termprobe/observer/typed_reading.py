"""What a person types for a reading: `4.9`, `4,9 V`, `4900 mV`, `153.6k`, `4k7`."""

import re
from decimal import Decimal

from termprobe.journal.records import AS_EXPECTED, DIFFERS, Answer
from termprobe.plan.model import Measure
from termprobe.plan.quantities import OVER_RANGE, OVER_RANGE_SHOWN, PREFIXES, Unit, unit_of

POINT_LETTERS = {"R": "ohm"}
"""Letters that stand where the point does, beside prefixes and units, with their unit: `4R7`."""
_UNIT_TYPED = r"\s*(\S*)"
_NUMBER = r"[+-]?(?:[0-9]+[.,]?[0-9]*|[.,][0-9]+)(?:[eE][+-]?[0-9]{1,2})?"
_READING = re.compile(f"({_NUMBER}){_UNIT_TYPED}")
_LETTER_FOR_POINT = re.compile(rf"([+-]?[0-9]+)([^\W\d_eE])([0-9]+){_UNIT_TYPED}")
_TWO_MEANINGS = re.compile(r"[+-]?[1-9][0-9]{0,2},[0-9]{3}")
"""What follows the comma may be decimals, or three more digits of a thousand."""
LONGEST = 40
"""Characters that are read."""
OVER_RANGE_WORDS = (OVER_RANGE_SHOWN, "O.L", "0L", "0.L")
"""What meters show over their range, and how it is read off them."""


def parse_reading(text: str, unit: str = "") -> float:
    """Return the reading in `text` in `unit`, a bare number where that is empty.

    A comma is a point. A prefix alone takes the unit along, and a prefix or a unit may stand where
    the point does: `153.6k` and `153k6` are 153.6 kHz where Hz are wanted. Raises ValueError with
    what must be typed, also where a comma may mean two things.
    """
    typed = text.strip().replace("\u2212", "-")
    match = _READING.fullmatch(_with_point(typed, unit))
    if not match or len(text) > LONGEST:
        example = f"4.9 {unit}".rstrip()
        what = f"a number, with a point and its unit if you like ({example})"
        raise ValueError(f"a reading must be {what}, not {text.strip()[:LONGEST]!r}")
    _refuse_two_meanings(match[1])
    number, given = Decimal(match[1].replace(",", ".")), match[2]
    if not given or given == unit:
        return float(number)
    return float(number.scaleb(_power(given, unit)))


def _with_point(typed: str, unit: str) -> str:
    """Return `4.7k` for `4k7`, and all else as it is."""
    match = _LETTER_FOR_POINT.fullmatch(typed)
    if match is None:
        return typed
    whole, letter, decimals, rest = match.groups()
    if letter in POINT_LETTERS and not rest:
        return f"{whole}.{decimals}{POINT_LETTERS[letter]}"
    if _unit_typed(letter + rest, unit) is None:
        return typed
    return f"{whole}.{decimals}{letter}{rest}"


def _refuse_two_meanings(number: str) -> None:
    if _TWO_MEANINGS.fullmatch(number):
        decimals, thousands = number.replace(",", "."), number.replace(",", "")
        raise ValueError(f"a reading must be {decimals} or {thousands}; {number!r} may mean either")


def _power(given: str, unit: str) -> int:
    """Return the power of ten that makes `unit` of what was given; raise ValueError."""
    of_given, wanted = _unit_typed(given, unit), unit_of(unit)
    if of_given is None or wanted is None or of_given.base != wanted.base:
        raise ValueError(f"the unit must be {unit or 'left out'}, not {given!r}")
    return of_given.power - wanted.power


def _unit_typed(given: str, unit: str) -> Unit | None:
    """Return what was typed for a unit; a prefix alone stands before the base of `unit`."""
    wanted = unit_of(unit)
    if given in PREFIXES and wanted is not None:
        return Unit(PREFIXES[given], wanted.base)
    return unit_of(given)


def reading_of(step: Measure, text: str) -> float:
    """Return the reading of `step` in `text`, OVER_RANGE for the OL of a meter.

    Raises ValueError with what must be typed, also where no instrument can show that there.
    """
    if text.strip().upper() in OVER_RANGE_WORDS:
        value = OVER_RANGE
    else:
        value = parse_reading(text, step.unit)
    if not step.is_reading(value):
        raise ValueError(f"a reading here must be {_can_be(step)}, not {text.strip()[:LONGEST]!r}")
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
    return f"It must read {step.limits_with_edges}{beside}."


def what_is_right(step: Measure, value: float) -> str:
    """Return what is said of a reading that is not outside its limits."""
    if not step.limits:
        return "Noted."
    if step.usual.holds(value):
        return "Within limits."
    return f"Within limits, but {step.usual.in_words(step.unit)} is usual."


def answer_of_reading(step: Measure, value: float) -> Answer:
    """Return the Answer that a reading is: as expected within its limits, or where it has none."""
    return Answer(AS_EXPECTED if step.allows(value) else DIFFERS, value=value)
