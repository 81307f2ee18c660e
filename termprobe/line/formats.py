"""What a board's line may be set to, how common each is, and what is wrong against a profile.

How common something is, is an own estimate from published repairs; it decides in which order
possibilities are tried, and never outweighs what was heard.
"""

from collections.abc import Sequence
from typing import NamedTuple

from termprobe.link.base import LineFormat

ALIKE_SHARE = 0.03
"""Rates that are nearer to one another cannot be told apart by single characters."""


class WireFormat(NamedTuple):
    """All that single characters of seven bits show of how a board sends."""

    baud: float
    """As it is on the wire."""
    data_bits: int
    parity: str
    """none, even or odd"""
    is_inverted: bool = False

    def line_formats(self) -> tuple[LineFormat, ...]:
        """Return all formats that look like this: nothing in single characters tells them apart.

        A second stop bit is an idle line, a mark for a parity bit is one as well, and a space for a
        parity bit is an eighth data bit that a code of seven bits has not.
        """
        frames = [(self.data_bits, self.parity)]
        if self.parity == "none":
            frames.append({7: (7, "mark"), 8: (7, "space")}[self.data_bits])
        speed_baud = round(self.baud)
        formats = [LineFormat(speed_baud, *frame, stop) for frame in frames for stop in (1, 2)]
        mark_and_two_stop_bits = LineFormat(speed_baud, 7, "mark", 2)
        return tuple(format for format in formats if format != mark_and_two_stop_bits)

    def best_format(self, wanted: LineFormat | None) -> LineFormat:
        """Return which of them to name: that of the profile where it is one."""
        formats = self.line_formats()
        if wanted is None:
            return formats[0]
        near = [format for format in formats if _frame(format) == _frame(wanted)]
        stop_alike = [format for format in formats if format.stop_bits == wanted.stop_bits]
        return (near or stop_alike or list(formats))[0]


def _frame(format: LineFormat) -> tuple[int, str, int]:
    return format.data_bits, format.parity, format.stop_bits


def is_alike(baud: float, other_baud: float) -> bool:
    """Return whether two rates are so near that a receiver understands both."""
    return abs(baud / other_baud - 1) < ALIKE_SHARE


class ClockRatio(NamedTuple):
    """A clock that is not what the divider is made for."""

    ratio: float
    words: str


CLOCK_RATIOS = (
    ClockRatio(4 / 3, "a crystal of 2.4576 MHz in place of 1.8432"),
    ClockRatio(3 / 4, "a crystal of 1.8432 MHz in place of 2.4576"),
    ClockRatio(5 / 3, "a crystal of 3.072 MHz in place of 1.8432"),
    ClockRatio(3 / 5, "a crystal of 1.8432 MHz in place of 3.072"),
    ClockRatio(2.0, "a division by two that is missing"),
    ClockRatio(1 / 2, "a division by two too many"),
    ClockRatio(
        5.0688 / 4.9152,
        "a crystal of 5.0688 MHz in place of 4.9152, or 19200 by the divisor 16 of 5.0688 MHz",
    ),
    ClockRatio(4.9152 / 5.0688, "a crystal of 4.9152 MHz in place of 5.0688"),
)
"""Ratios of the usual clocks of rate_facts.USUAL_CLOCKS_HZ, and of a divider that is cut or open.

The two last ones are 3.125 % and 3.03 %: no single character shows them, a sweep does.
"""
NAMED_WITHIN = 0.006
"""So near a measured ratio must be to one that is named."""


def clock_ratio_near(ratio: float) -> ClockRatio | None:
    """Return what makes a clock so fast, None where nothing known does."""
    nearest = min(CLOCK_RATIOS, key=lambda known: abs(known.ratio / ratio - 1))
    if abs(nearest.ratio / ratio - 1) > NAMED_WITHIN:
        return None
    return nearest


USUAL_WEIGHTS: dict[float, float] = dict.fromkeys((150, 600, 1800), 1.0)
USUAL_WEIGHTS |= {9600: 4.0, 1200: 3.0, 300: 3.0, 2400: 2.0, 4800: 2.0, 19200: 2.0, 110: 2.0}
USUAL_WEIGHTS |= {75: 0.3, 134.5: 0.3, 2000: 0.3, 3600: 0.3, 7200: 0.5}
"""Rate: how common it is."""
CRYSTAL_WEIGHTS = {4 / 3: 0.02, 3 / 4: 0.02, 5 / 3: 0.005, 3 / 5: 0.005}
"""Ratio of a clock: how common it is against a right one."""
INVERTED_WEIGHT = 0.05
FRAMES = ((7, "even"), (8, "none"), (7, "none"), (7, "odd"), (8, "even"), (8, "odd"))
FAVOUR = 4.0
"""By how much the profile's speed, and its frame, are more common than others."""


def common_formats(wanted: LineFormat | None = None) -> dict[WireFormat, float]:
    """Return how probable each is before anything is heard; they sum to 1."""
    weights = {
        WireFormat(baud, *frame, is_inverted): rate_weight * inverted_weight
        for baud, rate_weight in _rate_weights().items()
        for frame in FRAMES
        for is_inverted, inverted_weight in ((False, 1.0), (True, INVERTED_WEIGHT))
    }
    if wanted:
        weights = {wire: weight * _favour(wire, wanted) for wire, weight in weights.items()}
    total = sum(weights.values())
    return {wire: weight / total for wire, weight in weights.items()}


def _favour(wire: WireFormat, wanted: LineFormat) -> float:
    favour = 1.0
    if is_alike(wire.baud, wanted.speed_baud):
        favour *= FAVOUR
    if (wire.data_bits, wire.parity) == (wanted.data_bits, wanted.parity):
        favour *= FAVOUR
    return favour


def _rate_weights() -> dict[float, float]:
    """Return the rates that may be on a wire; of those that are alike the more common one."""
    found: dict[float, float] = dict(USUAL_WEIGHTS)
    for ratio, share in CRYSTAL_WEIGHTS.items():
        for baud, weight in USUAL_WEIGHTS.items():
            if weight >= 1 and not any(is_alike(baud * ratio, known) for known in found):
                found[baud * ratio] = weight * share
    return found


NUMBERS = {5: "five", 6: "six", 7: "seven", 8: "eight"}


def wrong_straps(
    wire: WireFormat, wanted: LineFormat, speeds_baud: Sequence[int] = ()
) -> tuple[str, ...]:
    """Return what is wrong against the profile's format, in words; empty where all is right.

    `speeds_baud` are those that a board of the profile can be set to.
    """
    found = wire.best_format(wanted)
    wrong = []
    if wire.is_inverted:
        wrong.append(
            "the line is inverted: logic levels where RS-232 belongs, or an inverter too many"
        )
    if not is_alike(wire.baud, wanted.speed_baud):
        wrong.append(_speed_words(wire.baud, wanted.speed_baud, speeds_baud))
    if found.data_bits != wanted.data_bits:
        wrong.append(
            f"{NUMBERS[found.data_bits]} data bits for {NUMBERS[wanted.data_bits]}: "
            "the strap of the word length"
        )
    if found.parity != wanted.parity:
        wrong.append(f"{_parity(found)} for {wanted.parity}: {_parity_strap(found, wanted)}")
    return tuple(wrong)


def _parity(format: LineFormat) -> str:
    if format.parity == "none":
        return "no parity"
    return f"{format.parity} parity"


def _parity_strap(found: LineFormat, wanted: LineFormat) -> str:
    if "none" in (found.parity, wanted.parity):
        return "the strap that switches parity on or off"
    return "the strap of even and odd"


def _speed_words(baud: float, wanted_baud: int, speeds_baud: Sequence[int]) -> str:
    said = f"{baud:.5g} baud for {wanted_baud}"
    reasons = []
    if any(is_alike(baud, speed) for speed in speeds_baud):
        reasons.append("the straps or switches of the speed")
    clock = clock_ratio_near(baud / wanted_baud)
    if clock:
        reasons.append(clock.words)
    reasons += [
        f"set to {speed} and {known.words}"
        for speed in speeds_baud
        for known in [clock_ratio_near(baud / speed)]
        if known and speed != wanted_baud and not reasons
    ]
    return f"{said}: {', or '.join(reasons) or 'no usual clock explains it'}"
