"""What is said of rates that come of a clock: one plain sentence each, or for all together."""

from collections.abc import Sequence

from termprobe.folding import first_of
from termprobe.link.base import LineFormat
from termprobe.link.budget import Deviation, budget_of, left_for_other
from termprobe.link.frame_text import frame_text
from termprobe.link.rate_facts import ADAPTER_PERCENT
from termprobe.link.rates import LineRate

NAMED = 6
"""So many rates are named at most."""
EXACT_BELOW_PERCENT = 0.0005
_SIDES = ((-ADAPTER_PERCENT, "slow"), (ADAPTER_PERCENT, "fast"))
_ADAPTER = f"an adapter {ADAPTER_PERCENT:g} %"


def hertz(clock_hz: float) -> str:
    """Return `5.0688 MHz`, or whole hertz where it is slow."""
    if clock_hz < 100_000:
        return f"{clock_hz:g} Hz"
    return f"{clock_hz / 1e6:.9g} MHz"


def deviation(error_percent: float) -> str:
    """Return `3.125 % fast`, or `exact`."""
    if abs(error_percent) < EXACT_BELOW_PERCENT:
        return "exact"
    side = "fast" if error_percent > 0 else "slow"
    return f"{abs(error_percent):.3f} % {side}"


def left(rate: LineRate, format: LineFormat) -> Deviation:
    """Return how far the other end may be off."""
    return left_for_other(budget_of(format), rate.error_percent)


def sides(rate: LineRate, format: LineFormat, are_borne: bool) -> str:
    """Return `slow`, `fast`, `slow or fast` or nothing: which adapters are borne, or are not."""
    room = left(rate, format)
    return " or ".join(side for percent, side in _SIDES if room.has(percent) == are_borne)


def rate_verdict(rate: LineRate, format: LineFormat) -> str:
    """Return in one sentence whether a rate holds, with an exact computer and with others."""
    runs = deviation(rate.error_percent)
    verb = "is" if runs == "exact" else "runs"
    outcome = _outcome(rate, format, f"with {frame_text(format)} and an exact computer")
    return f"{rate.baud:g} from {hertz(rate.clock_hz)} {verb} {runs}: {outcome}."


def _outcome(rate: LineRate, format: LineFormat, first: str) -> str:
    """Return whether the rate holds with what `first` says, and with an adapter that is off."""
    borne, refused = sides(rate, format, True), sides(rate, format, False)
    holds = left(rate, format).has(0)
    match holds, borne, refused:
        case True, _, "":
            return f"{first} it holds, also with {_ADAPTER} {borne}"
        case True, _, _:
            return f"{first} it holds, with {_ADAPTER} {refused} it does not"
        case _, "", _:
            return f"{first} it does not hold, nor with {_ADAPTER} {refused}"
        case _:
            return f"{first} it does not hold, only with {_ADAPTER} {borne}"


def rates_verdict(rates: Sequence[LineRate], format: LineFormat) -> str:
    """Return in one sentence which of the rates of one clock hold."""
    weak = [rate for rate in rates if sides(rate, format, False)]
    held = (
        f"{_counted(len(rates) - len(weak), rates)} with {frame_text(format)}, also with {_off()}"
    )
    if len(weak) == 1:
        only = weak[0]
        outcome = _outcome(only, format, "with an exact computer")
        return f"{held}; {only.baud:g} runs {deviation(only.error_percent)}: {outcome}."
    bad = [rate for rate in weak if not left(rate, format).has(0)]
    tight = [rate for rate in weak if rate not in bad]
    parts = [held]
    if tight:
        parts.append(f"only with an exact computer or a good adapter: {_named(tight)}")
    if bad:
        parts.append(f"not even with an exact computer: {_named(bad)}")
    return "; ".join(parts) + "."


def _off() -> str:
    return f"{_ADAPTER} slow or fast"


def _counted(held: int, rates: Sequence[LineRate]) -> str:
    clock = hertz(rates[0].clock_hz)
    if held == len(rates):
        return f"All {held} rates from {clock} hold"
    return f"{held} of {len(rates)} rates from {clock} hold"


def _named(rates: Sequence[LineRate]) -> str:
    return first_of([f"{rate.baud:g} ({deviation(rate.error_percent)})" for rate in rates], NAMED)


def clocks_verdict(of_clocks: Sequence[Sequence[LineRate]], format: LineFormat) -> str:
    """Return in one sentence which clocks give all rates, and what the others lack."""
    words = [_lack(rates, format) for rates in of_clocks]
    return f"With {frame_text(format)} and {_off()}: " + "; ".join(words) + "."


def _lack(rates: Sequence[LineRate], format: LineFormat) -> str:
    """Return what a clock gives: of one rate which, of several those that it does not."""
    clock = hertz(rates[0].clock_hz)
    weak = [rate for rate in rates if sides(rate, format, False)]
    match rates, weak:
        case [rate], []:
            return f"{rate.baud:g} from {clock} holds"
        case [_], _:
            return f"{_named(weak)} from {clock} does not"
        case _, []:
            return f"{clock} holds"
        case _:
            return f"{clock} holds but for {_named(weak)}"
