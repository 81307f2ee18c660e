"""Options of commands that use a line by itself: its speed and format, told or by a profile."""

import argparse
import dataclasses

from termprobe.cli.opened_line import line_format
from termprobe.link.base import LineFormat
from termprobe.link.frame_text import frame_from
from termprobe.profile import load as profiles
from termprobe.report.spans_in_words import span_from

USUAL = LineFormat()


def add_line_options(parser: argparse.ArgumentParser) -> None:
    """Add --profile, --speed and --format."""
    parser.add_argument(
        "--profile", metavar="P", help="take speed, format and handshake from this profile"
    )
    parser.add_argument(
        "--speed", metavar="BAUD", type=whole_number, help="speed (default: 9600, or the profile's)"
    )
    parser.add_argument(
        "--format",
        metavar="8N1",
        help="data bits, parity, stop bits (default: 8N1, or the profile's)",
    )


def line_of(arguments: argparse.Namespace) -> tuple[LineFormat, str]:
    """Return format and handshake that the options ask for; raise FileError or UsageError."""
    format, handshake = USUAL, "none"
    if arguments.profile:
        profile = profiles.load(arguments.profile)
        format, handshake = line_format(profile), str(profile.link.handshake)
    if arguments.format:
        frame = frame_from(arguments.format)
        format = dataclasses.replace(frame, speed_baud=format.speed_baud)
    if arguments.speed:
        format = dataclasses.replace(format, speed_baud=arguments.speed)
    return format, handshake


def whole_number(text: str) -> int:
    """Return the number of an option; raise ArgumentTypeError where it is none, or 0."""
    if not (text.isascii() and text.isdigit() and int(text) > 0):
        raise argparse.ArgumentTypeError(f"must be a whole number, 1 or more, not {text!r}")
    return int(text)


def span(text: str) -> float:
    """Return the seconds of an option; raise ArgumentTypeError where it is no time."""
    seconds = span_from(text)
    if not seconds:
        raise argparse.ArgumentTypeError(f"must be a time such as 90, 10m, 24h or 7d, not {text!r}")
    return seconds
