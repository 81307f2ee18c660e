"""`termprobe soak`: characters sent over a line that brings them back, hours or days of them."""

import argparse
import contextlib
import pathlib
import platform
import shlex
import sys

from termprobe import __version__
from termprobe.cli.bench import free_path, make_folder
from termprobe.cli.console import Console
from termprobe.cli.line_options import add_line_options, line_of, span, whole_number
from termprobe.cli.opened_line import line_at
from termprobe.cli.soak_progress import SoakProgress
from termprobe.cli.soaked import load_soak
from termprobe.clock import SystemClock
from termprobe.errors import UsageError
from termprobe.journal.file import Journal
from termprobe.journal.records import BoardUnderTest, Header, Linked, LinkUsed
from termprobe.journal.soaking import SOAK, SoakBegun
from termprobe.line.soak import Far, Soak
from termprobe.line.stream import PRINTABLE, Stream, carried_codes
from termprobe.link.base import Link, is_simulated
from termprobe.report.soak_page import line_format_of, told_of, wanted_of

HANDSHAKES = ("none", "xon-xoff", "rts-cts")
XON_XOFF = "xon-xoff"
LEAST_DATA_BITS = 7
"""Digits and letters stand in the text."""
USUAL_SECONDS = 60.0
AS_IT_WAS_BEGUN = (
    ("characters", "characters"),
    ("for", "seconds"),
    ("profile", "profile"),
    ("speed", "speed"),
    ("format", "format"),
    ("handshake", "handshake"),
    ("printable", "printable"),
)
"""(option, where its value stands) of what a soak that goes on keeps to."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the words of this command to `parser`."""
    parser.add_argument("--port", metavar="URL", help="device path or pyserial URL")
    length = parser.add_mutually_exclusive_group()
    length.add_argument(
        "--characters", metavar="N", type=whole_number, help="how many characters to send"
    )
    length.add_argument(
        "--for",
        dest="seconds",
        metavar="TIME",
        type=span,
        help="how long to go on: 90, 10m, 24h, 7d (default: 1m)",
    )
    add_line_options(parser)
    parser.add_argument("--handshake", choices=HANDSHAKES, help="who may stop whom (default: none)")
    parser.add_argument(
        "--printable",
        action="store_true",
        help="send printable characters alone, where control codes would do harm on the way",
    )
    parser.add_argument(
        "--seed", metavar="N", type=int, default=1, help="another text (default: 1)"
    )
    parser.add_argument("--board", metavar="SERIAL", default="", help="board that is on the line")
    parser.add_argument("--resume", metavar="RUN", help="go on with this run file of a soak")
    parser.add_argument(
        "--out", metavar="DIR", default=".", help="folder of the run file (default: this one)"
    )
    parser.add_argument("--json", action="store_true", help="print one JSON document")
    parser.epilog = (
        "The line must bring back what it is sent: put a loopback plug on the adapter,\n"
        "or at the far end of the cable, with received tied to transmitted data. Every\n"
        "character is compared; lost, doubled, extra and changed ones are told apart.\n"
        "Ctrl-C stops; --resume goes on. Without hardware: --port loop://"
    )


def run(arguments: argparse.Namespace) -> int:
    """Carry the soak out and print its page; return the exit code of its verdict."""
    clock = SystemClock()
    port, begun, far = _wanted(arguments)
    with contextlib.ExitStack() as stack:
        link = line_at(port, line_format_of(begun), clock)
        stack.callback(link.close)
        journal = _journal(arguments, begun, link, clock)
        stack.callback(journal.close)
        _carry_out(journal, link, begun, far, clock)
    soaked = load_soak(journal.path)
    print(soaked.rendered(arguments.json))
    return soaked.exit_code


def _wanted(arguments: argparse.Namespace) -> tuple[str, SoakBegun, Far]:
    """Return the port, the soak that is asked for, and how far it is already."""
    if not arguments.resume:
        return _port(arguments.port), _begun(arguments), Far()
    given = [f"--{option}" for option, name in AS_IT_WAS_BEGUN if getattr(arguments, name)]
    if given:
        raise UsageError(
            f"on --resume a soak goes on as it was begun, so {', '.join(given)} must not be given; "
            "begin a new one for other settings"
        )
    soaked = load_soak(arguments.resume)
    port = arguments.port
    if not port and soaked.header.link:
        port = soaked.header.link.name
    return _port(port), soaked.begun, soaked.far


def _journal(
    arguments: argparse.Namespace, begun: SoakBegun, link: Link, clock: SystemClock
) -> Journal:
    """Return the run file: a new one, or the one that is gone on with."""
    used = LinkUsed(link.name, str(link.format), link.note)
    if arguments.resume:
        journal = Journal.reopen(arguments.resume, clock)
        journal.append(Linked(used))
        return journal
    make_folder(arguments.out)
    path = free_path(pathlib.Path(arguments.out), arguments.board or SOAK, clock.date())
    header = Header(
        BoardUnderTest(arguments.board),
        link=used,
        profile=arguments.profile or "",
        script=SOAK,
        tool=f"termprobe {__version__}",
        platform=f"{platform.system()}, Python {platform.python_version()}",
    )
    journal = Journal.create(path, header, clock)
    journal.append(begun)
    return journal


def _port(port: str | None) -> str:
    """Return `port` where it can be soaked; raise UsageError."""
    if not port:
        raise UsageError(
            "--port must name the port with the loopback plug; `termprobe ports` lists them"
        )
    if is_simulated(port):
        raise UsageError(
            f"--port must be a line that brings back what it is sent, and {port} is a simulated "
            "board, which does not; try --port loop://"
        )
    return port


def _begun(arguments: argparse.Namespace) -> SoakBegun:
    """Return the soak that is asked for."""
    format, handshake = line_of(arguments)
    if format.data_bits < LEAST_DATA_BITS:
        raise UsageError(
            f"a soak must have 7 or 8 data bits, for its text is numbered, not {format.data_bits}; "
            "try --format 8N1"
        )
    seconds = arguments.seconds
    if seconds is None and arguments.characters is None:
        seconds = USUAL_SECONDS
    return SoakBegun(
        format.speed_baud,
        format.data_bits,
        format.parity,
        format.stop_bits,
        arguments.handshake or handshake,
        arguments.printable,
        arguments.seed,
        arguments.characters,
        seconds,
    )


def _carry_out(
    journal: Journal, link: Link, begun: SoakBegun, far: Far, clock: SystemClock
) -> None:
    """Soak; where it ends early say how to go on."""
    codes = PRINTABLE
    if not begun.is_printable:
        codes = carried_codes(begun.data_bits, keeps_xon_xoff=begun.handshake != XON_XOFF)
    wanted = wanted_of(begun)
    progress = SoakProgress(wanted, sys.stderr)
    soak = Soak(
        link,
        clock,
        Stream(codes, begun.seed),
        far,
        lambda far: _keep(journal, far),
        progress,
        begun.handshake,
    )
    try:
        soak.carry_out(wanted)
    except BaseException:
        progress.end()
        going_on = shlex.join(["termprobe", "soak", "--resume", journal.path])
        Console(sys.stderr).tell(
            f"{progress.line(far)}\nThe soak so far is in {journal.path}; go on with:\n  {going_on}"
        )
        raise
    progress.end()


def _keep(journal: Journal, far: Far) -> None:
    journal.append(told_of(far))
