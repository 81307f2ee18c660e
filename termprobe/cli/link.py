"""`termprobe link`: proves the line before any screen is judged, and finds why nothing comes."""

import argparse
import sys

from termprobe.cli import run as unattended
from termprobe.cli import session
from termprobe.cli.console import Console, is_typed_at
from termprobe.cli.observers import add_observer_arguments
from termprobe.cli.request import add_bench_arguments
from termprobe.cli.silent import SILENT_HELP, ask_why_silent
from termprobe.cli.sound import add_sound_argument
from termprobe.link.wirings import WIRINGS

SCRIPT = "link"
NO_BOARD = "line"
"""Stands for the serial number where the line itself is tried, whatever board is on it."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the words of this command to `parser`."""
    add_bench_arguments(parser, has_script=False)
    add_sound_argument(parser)
    add_observer_arguments(parser)
    parser.add_argument(
        "--plain",
        action="store_true",
        help="plain prompts, line by line; by itself where input or output is no terminal",
    )
    parser.add_argument(
        "--cable",
        metavar="NAME",
        help=f"put this cable between, with --port sim: alone: {', '.join(WIRINGS)}",
    )
    parser.add_argument("--silent", action="store_true", help=SILENT_HELP)
    parser.add_argument(
        "--json", action="store_true", help="print one JSON document instead of a report"
    )
    parser.epilog = (
        "First adapter and cable with a loopback plug, then which cable is on the bench,\n"
        "and what the board does on the line: levels, handshake, half and full duplex.\n"
        "It is a run like others: it can be stopped, resumed, and reported on. Where\n"
        "nothing shows or comes at all, --silent asks a few questions, the cheap ones\n"
        "first, and "
        "names what it most often is."
    )


def run(arguments: argparse.Namespace) -> int:
    """Walk through the line; return the exit code of the verdict."""
    if arguments.silent:
        return ask_why_silent(Console(sys.stdout), arguments.json)
    vars(arguments).update(script=None if arguments.resume else SCRIPT, stage=[])
    arguments.board = arguments.board or (None if arguments.resume else NO_BOARD)
    if is_typed_at() and not arguments.json:
        return session.run(arguments)
    vars(arguments).update(carry_on=False, until_sure=False)
    return unattended.run(arguments)
