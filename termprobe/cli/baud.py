"""`termprobe baud`: rates of a clock, how wrong they are, and what a line bears."""

import argparse
import math
import sys
from collections.abc import Sequence

from termprobe.cli.console import columns
from termprobe.errors import EXIT_PASSED, UsageError
from termprobe.link.base import LineFormat
from termprobe.link.frame_text import frame_from
from termprobe.link.rate_facts import NOMINAL_BAUD, SAMPLES_PER_BIT, USUAL_CLOCKS_HZ
from termprobe.link.rates import LineRate, best_rate, divided
from termprobe.profile import load as profiles
from termprobe.report.baud_page import PAGE_COLUMNS, baud_document, baud_page
from termprobe.report.formats.json import dump

SLOWEST_HZ = int(SAMPLES_PER_BIT * NOMINAL_BAUD[0])
FASTEST_HZ = 1_000_000_000
LARGEST_DIVISOR = 1_000_000


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the words of this command to `parser`."""
    parser.add_argument(
        "--clock-hz", metavar="F", help="the clock that is divided; without it common ones"
    )
    parser.add_argument("--divisor", metavar="N", help="the rate of this divisor alone")
    parser.add_argument(
        "--format", metavar="7E1", help="the frame (default: the profile's, or 8N1)"
    )
    parser.add_argument("--profile", metavar="P", help="speeds and frame are those of this profile")
    parser.add_argument("--json", action="store_true", help="print one JSON document")
    parser.epilog = (
        "A rate is the clock divided by 16 and by the divisor. Used is how much of what a\n"
        "line bears the clock's own error takes, left how far the other end may be off.\n"
        "  termprobe baud --clock-hz 5068800 --format 7E1\n"
        "  termprobe baud --clock-hz 5068800 --divisor 16"
    )


def run(arguments: argparse.Namespace) -> int:
    """Print the rates and whether they hold; return the exit code."""
    format, rates_baud = _line(arguments)
    of_clocks = [_rates(clock, arguments, rates_baud) for clock in _clocks_hz(arguments.clock_hz)]
    if arguments.json:
        print(dump(baud_document(of_clocks, format)))
    else:
        print(baud_page(of_clocks, format, columns(sys.stdout) or PAGE_COLUMNS))
    return EXIT_PASSED


def _line(arguments: argparse.Namespace) -> tuple[LineFormat, Sequence[float]]:
    """Return the frame, and the rates that are asked for."""
    format = LineFormat()
    rates_baud: Sequence[float] = NOMINAL_BAUD
    if arguments.profile:
        needs = profiles.load(arguments.profile).link
        format = LineFormat(needs.speed_baud, needs.data_bits, needs.parity, needs.stop_bits)
        rates_baud = needs.speeds_baud
    if arguments.format is not None:
        format = frame_from(arguments.format)
    return format, rates_baud


def _rates(
    clock_hz: float, arguments: argparse.Namespace, rates_baud: Sequence[float]
) -> list[LineRate]:
    if arguments.divisor is not None:
        return [divided(clock_hz, _divisor(arguments.divisor))]
    return [best_rate(clock_hz, baud) for baud in rates_baud]


def _clocks_hz(text: str | None) -> Sequence[float]:
    """Return the clock that is asked for, or the usual ones; raise UsageError."""
    if text is None:
        return USUAL_CLOCKS_HZ
    try:
        clock_hz = float(text)
    except ValueError:
        clock_hz = math.nan
    if not SLOWEST_HZ <= clock_hz <= FASTEST_HZ:
        raise UsageError(
            f"--clock-hz must be a number of hertz from {SLOWEST_HZ} (16 times "
            f'{NOMINAL_BAUD[0]} baud) to {FASTEST_HZ:,}, not "{text}"; '
            "write 5068800 for 5.0688 MHz"
        )
    return (clock_hz,)


def _divisor(text: str) -> int:
    if not (text.isascii() and text.isdigit() and 1 <= int(text[:20]) <= LARGEST_DIVISOR):
        raise UsageError(
            f"--divisor must be a whole number from 1 to {LARGEST_DIVISOR:,}, "
            f'not "{text}"; 33 makes 9600 baud of 5.0688 MHz'
        )
    return int(text)
