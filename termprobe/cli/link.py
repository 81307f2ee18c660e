"""`termprobe link`: proves the line before any screen is judged, and finds why nothing comes."""

import argparse
import sys

from termprobe.cli.assembly import unwatched_clock
from termprobe.cli.console import Console, is_typed_at
from termprobe.cli.find_format import FIND_FORMAT_HELP, find_format_at
from termprobe.cli.held_session import hold_session
from termprobe.cli.observers import add_observer_arguments
from termprobe.cli.request import add_bench_arguments, bench_request
from termprobe.cli.send_formats import SEND_FORMATS_HELP, send_formats_at
from termprobe.cli.silent import SILENT_HELP, ask_why_silent
from termprobe.cli.sound import add_sound_argument
from termprobe.cli.sweep import SWEEP_HELP, sweep_at
from termprobe.cli.task import unnamed
from termprobe.cli.unattended import carry_out_script
from termprobe.errors import UsageError
from termprobe.link.wirings import WIRINGS
from termprobe.profile import load as profiles
from termprobe.report.headline import THE_LINE

SETTLE_HELP = (
    "find the shortest pause that each slow command needs, by looks or --dump; with names, of "
    "these commands alone"
)
SCRIPT = "acceptance"
STAGES = ("adapter", "cable", "link", "handshake", "duplex")
"""Those of the script that prove the line."""
INSTEAD = ("silent", "find-format", "send-formats", "sweep", "settle")
"""Options of which one is carried out in the place of the whole walk."""
FORMAT_HELP = "frame that the board should have, where a profile does not say it"


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
    parser.add_argument("--find-format", action="store_true", help=FIND_FORMAT_HELP)
    parser.add_argument("--send-formats", action="store_true", help=SEND_FORMATS_HELP)
    parser.add_argument("--sweep", action="store_true", help=SWEEP_HELP)
    parser.add_argument("--settle", nargs="*", metavar="COMMAND", help=SETTLE_HELP)
    parser.add_argument("--format", metavar="7E1", help=FORMAT_HELP)
    parser.add_argument(
        "--json", action="store_true", help="print one JSON document instead of a report"
    )
    parser.epilog = (
        "First adapter and cable with a loopback plug, then which cable is on the\n"
        "bench, and what the board does on the line: levels, handshake, half and full\n"
        "duplex. It is a run like others: it can be stopped, resumed, and reported on.\n"
        "Where nothing shows or comes at all, --silent asks a few questions, the cheap\n"
        "ones first, and names what it most often is. Where nonsense comes,\n"
        "--find-format finds speed and frame from a few keys, --send-formats from what\n"
        "the screen shows; --sweep then measures how far off the board's clock is."
    )


def run(arguments: argparse.Namespace) -> int:
    """Walk through the line; return the exit code of the verdict."""
    vars(arguments).update(script=None, stage=[], skip_stage=[], junit=None)
    if not arguments.resume:
        vars(arguments).update(script=SCRIPT, stage=list(STAGES))
    _refuse_several(arguments)
    if arguments.silent:
        return ask_why_silent(Console(sys.stdout), arguments.json)
    if arguments.find_format:
        return find_format_at(arguments)
    if arguments.send_formats:
        return send_formats_at(arguments)
    if arguments.sweep:
        return sweep_at(arguments)
    if arguments.format:
        raise UsageError("--format must stand beside --find-format, --send-formats or --sweep")
    if arguments.settle is not None:
        return _settle(arguments)
    arguments.board = arguments.board or (None if arguments.resume else THE_LINE)
    if is_typed_at() and not arguments.json:
        return hold_session(arguments)
    vars(arguments).update(carry_on=False, until_sure=False)
    return carry_out_script(arguments)


def _refuse_several(arguments: argparse.Namespace) -> None:
    """Raise UsageError where more is asked for than one thing in the place of the whole walk."""
    words = vars(arguments)
    given = [f"--{name}" for name in INSTEAD if words[name.replace("-", "_")] not in (None, False)]
    if len(given) > 1:
        raise UsageError(f"one of {', '.join(given)} must be given, not several")


def _settle(arguments: argparse.Namespace) -> int:
    """Find the pauses that commands need; raise UsageError where port or profile is not told."""
    from termprobe.cli.settle import find_settling  # it loads pyte

    request = bench_request(arguments, None)
    if request.profile is None:
        raise UsageError(unnamed("profile"))
    dump_command: str | None = vars(arguments)["--dump"]
    return find_settling(
        request.port,
        profiles.load(request.profile),
        arguments.settle,
        unwatched_clock(request.port),
        request.speed_baud,
        dump_command,
        arguments.json,
    )
