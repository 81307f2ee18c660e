"""How far off its rate this side may listen before errors begin: the board's clock, and margins.

A receiver is wrong where it samples the last bit in the stop bit, or the stop bit in the last bit:
a key is chosen whose last bit is a space, so that both are seen. All offsets are of this side's
rate against the nominal one, in per cent.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import sqrt
from typing import NamedTuple

from termprobe.clock import Clock
from termprobe.errors import LinkSettingsError
from termprobe.line.format_finding import PRESS_WAIT_S, own_format_again, refuse_without_frames
from termprobe.link.base import LineFormat, Link
from termprobe.link.budget import Deviation, bits_after_start, budget_of
from termprobe.link.rate_facts import RECOMMENDED_PERCENT, SAMPLES_PER_BIT

HEARD_EACH = 3
"""Heard at each offset; where more than half of them are wrong, errors have begun."""
SWEPT_PERCENT = 6
"""So far each side is stepped in any case, in steps of one."""
FARTHEST_PERCENT = 10
"""So far where no errors have begun by then: a clock may be off by some per cent itself."""
FINEST_PERCENT = 0.25
LATE_BITS = 1 / (2 * SAMPLES_PER_BIT)
"""How late the clock of a receiver notices a start bit, in the mean."""
WIDTH_ALLOWED = (0.75, 1.15)
"""Share of the width that the frame must have, between receivers that vote and an ideal one."""
TIMED_S = 1.0
"""How long a block takes that is timed."""
DRAIN_TIMES = 4
"""An adapter that is so much slower is still waited for."""
ALLOWED_RATIO = 0.03
FILLER = 0x7F
"""Sent to time the adapter: nearly all ones, and boards take no notice of it."""

SWEEP_KEYS = {"even": "U", "odd": "C", "space": "U"}
EIGHT_BITS_KEY, SEVEN_BITS_KEY = "U", "5"


def sweep_key(format: LineFormat) -> str:
    """Return a key whose last bit on the wire, parity counted, is a space."""
    if format.parity in SWEEP_KEYS:
        return SWEEP_KEYS[format.parity]
    if format.data_bits == 8:
        return EIGHT_BITS_KEY
    return SEVEN_BITS_KEY


def edges_percent(format: LineFormat) -> Deviation:
    """Return at which offsets errors begin where the board's clock is right.

    The last bit is sampled in its middle, a little late, and must not have ended; the stop bit
    must have begun. A mark for a parity bit is as good as a stop bit.
    """
    bits = bits_after_start(format) - (format.parity == "mark")
    last_bit, stop_bit = bits + 0.5 + LATE_BITS, bits + 1.5 + LATE_BITS
    boundary = bits + 1
    return Deviation((last_bit / boundary - 1) * 100, (stop_bit / boundary - 1) * 100)


def bound_percent(format: LineFormat) -> Deviation:
    """Return which offsets every receiver must bear, by the budget of the frame."""
    budget = budget_of(format)
    slow = 1 / (1 + budget.fast_percent / 100)
    fast = 1 / (1 + budget.slow_percent / 100)
    return Deviation((slow - 1) * 100, (fast - 1) * 100)


class SweepStep(NamedTuple):
    """What was heard at one offset."""

    percent: float
    """As it was set: rates are whole numbers."""
    wrong: int
    heard: int

    @property
    def is_wrong(self) -> bool:
        """Return whether errors have begun here."""
        return 2 * self.wrong > self.heard


@dataclass(frozen=True)
class Swept:
    """What a sweep found."""

    format: LineFormat
    steps: tuple[SweepStep, ...]
    edges: Deviation | None
    """Where errors begin; None where they do not on both sides, or already at the nominal rate."""
    why_not: str = ""
    """Why nothing can be said of the clock; empty where it can."""

    @property
    def clock_percent(self) -> float:
        """How much too fast the board's clock runs; only where `why_not` is empty."""
        assert self.edges is not None
        right = edges_percent(self.format)
        slow = (100 + self.edges.slow_percent) / (100 + right.slow_percent)
        fast = (100 + self.edges.fast_percent) / (100 + right.fast_percent)
        return (sqrt(slow * fast) - 1) * 100

    @property
    def allowed_percent(self) -> float:
        """How far off one end should be at most."""
        return RECOMMENDED_PERCENT[bits_after_start(self.format)]

    @property
    def is_right(self) -> bool | None:
        """Return whether the board's clock is right enough; None where nothing can be said."""
        if self.why_not:
            return None
        return abs(self.clock_percent) <= self.allowed_percent


class LineSweep:
    """Listens at one offset after the other; `press` makes the key come, `tell` is told each step.

    `press(key, count)` returns at once; a builder who holds the key or presses it again and again
    needs to be told once alone.
    """

    def __init__(
        self,
        link: Link,
        clock: Clock,
        format: LineFormat,
        press: Callable[[str, int], None],
        tell: Callable[[SweepStep], None],
    ) -> None:
        self._link, self._clock, self._format = link, clock, format
        self._press, self._tell = press, tell
        self._steps: dict[int, SweepStep] = {}

    def swept(self) -> Swept:
        """Return what was found; the link has its own format again.

        Raises LinkError; LinkSettingsError where the adapter cannot do it: it sets no rates, tells
        no errors, or does not change its rate as it is asked to.
        """
        _refuse_unable(self._link)
        with own_format_again(self._link):
            refuse_fixed_rate(self._link, self._clock, self._format)
            if self._at(0.0).is_wrong:
                return self._found(None, "errors have begun at the nominal rate already")
            slow, fast = self._edge(-1), self._edge(1)
        if slow is None or fast is None:
            return self._found(None, "errors do not begin on both sides: the rate is not followed")
        edges = Deviation(slow, fast)
        return self._found(edges, wrong_width(edges, self._format))

    def _found(self, edges: Deviation | None, why_not: str) -> Swept:
        steps = sorted(self._steps.values(), key=lambda step: step.percent)
        return Swept(self._format, tuple(steps), edges, why_not)

    def _edge(self, side: int) -> float | None:
        """Return where errors begin on a side; None where they do not."""
        good, bad = 0.0, None
        for percent in range(1, FARTHEST_PERCENT + 1):
            step = self._at(side * percent)
            if step.is_wrong:
                bad = bad or step.percent
            elif bad is None:
                good = step.percent
            if bad is not None and percent >= SWEPT_PERCENT:
                break
        if bad is None:
            return None
        return self._between(good, bad)

    def _between(self, good: float, bad: float) -> float:
        """Return where errors begin between two offsets, in the middle of what is left."""
        while abs(bad - good) > FINEST_PERCENT:
            middle = (good + bad) / 2
            if self._baud(middle) in (self._baud(good), self._baud(bad)):
                break
            if self._at(middle).is_wrong:
                bad = middle
            else:
                good = middle
        return (good + bad) / 2

    def _baud(self, percent: float) -> int:
        return offset_baud(self._format, percent)

    def _at(self, percent: float) -> SweepStep:
        """Listen at an offset."""
        baud = self._baud(percent)
        if baud in self._steps:
            return self._steps[baud]
        key = sweep_key(self._format)
        self._link.set_format(replace(self._format, speed_baud=baud))
        self._link.read(0.0)
        self._press(key, HEARD_EACH)
        wrong, heard = self._heard(ord(key))
        step = SweepStep((baud / self._format.speed_baud - 1) * 100, wrong, heard)
        self._steps[baud] = step
        self._tell(step)
        return step

    def _heard(self, code: int) -> tuple[int, int]:
        """Return (how many came wrong, how many came)."""
        wrong = heard = 0
        while heard < HEARD_EACH:
            came = self._link.read(PRESS_WAIT_S)
            if not came:
                raise LinkSettingsError(
                    f"{self._link.name}: a key must keep coming while the rate is stepped, but "
                    f"nothing came for {PRESS_WAIT_S:.0f} s; hold it, or press it again and again"
                )
            for received in came:
                heard += len(received.data)
                right = 0 if received.error else received.data.count(code)
                wrong += len(received.data) - right
        return wrong, heard


def offset_baud(format: LineFormat, percent: float) -> int:
    """Return the whole rate that is nearest to an offset."""
    return round(format.speed_baud * (1 + percent / 100))


def wrong_width(edges: Deviation, format: LineFormat) -> str:
    """Return why two edges cannot be believed, by how far apart they are; else nothing."""
    right = edges_percent(format)
    share = _width(edges) / _width(right)
    if WIDTH_ALLOWED[0] <= share <= WIDTH_ALLOWED[1]:
        return ""
    return (
        f"errors begin {_width(edges):.1f} % apart, where this frame bears about "
        f"{_width(right):.1f} %: the adapter does not change its rate as it is asked to"
    )


def _width(edges: Deviation) -> float:
    return edges.fast_percent - edges.slow_percent


def _refuse_unable(link: Link) -> None:
    refuse_without_frames(link)
    if "marks" not in link.abilities:
        raise LinkSettingsError(
            f"{link.name}: the port must tell which characters had wrong frames, or the slow side "
            "of a sweep shows nothing; try another adapter, or another computer"
        )


def refuse_fixed_rate(link: Link, clock: Clock, format: LineFormat) -> None:
    """Raise LinkSettingsError where the adapter sends no faster and slower as it is asked to.

    Where it does not tell how long it sends nothing is refused: the width is looked at later.
    """
    offsets = (-SWEPT_PERCENT, SWEPT_PERCENT)
    formats = [replace(format, speed_baud=offset_baud(format, percent)) for percent in offsets]
    count = round(TIMED_S / format.character_s)
    taken_s = [_sending_s(link, clock, each, count) for each in formats]
    if any(taken < TIMED_S / 2 for taken in taken_s):
        return
    asked = formats[1].speed_baud / formats[0].speed_baud
    measured = taken_s[0] / taken_s[1]
    if abs(measured / asked - 1) > ALLOWED_RATIO:
        raise LinkSettingsError(
            f"{link.name}: the adapter must change its rate as it is asked to, but asked for "
            f"{(asked - 1) * 100:.1f} % more it sends {(measured - 1) * 100:.1f} % faster; "
            "try another adapter"
        )


def _sending_s(link: Link, clock: Clock, format: LineFormat, count: int) -> float:
    """Return how long `count` characters take."""
    link.set_format(format)
    begun_s = clock.now_s()
    link.write(bytes([FILLER]) * count)
    link.drain(DRAIN_TIMES * TIMED_S)
    return clock.now_s() - begun_s
