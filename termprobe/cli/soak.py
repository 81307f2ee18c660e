"""`termprobe soak`: characters sent over a line that brings them back, hours or days of them."""

import argparse
import contextlib
import platform
import sys
from typing import TYPE_CHECKING, NamedTuple

from termprobe import __version__
from termprobe.cli import soak_looks
from termprobe.cli.assembly import unwatched_clock
from termprobe.cli.bench import new_journal
from termprobe.cli.console import Console
from termprobe.cli.going_on import last_link, other_link_in_words, tell_of_link
from termprobe.cli.line_options import add_line_options, line_of, span, whole_number
from termprobe.cli.observers import screen_observer
from termprobe.cli.opened_line import line_at, link_to, open_link
from termprobe.cli.shell_words import command_line
from termprobe.cli.soak_progress import SoakProgress
from termprobe.cli.soaked import load_soak
from termprobe.clock import Clock
from termprobe.errors import UsageError
from termprobe.journal.file import Journal
from termprobe.journal.records import BoardUnderTest, Header, Linked, LinkUsed
from termprobe.journal.soaking import SOAK, SoakBegun
from termprobe.line.soak import Far, Soak, SoakLength, SoakListener
from termprobe.line.stream import PRINTABLE, Stream, carried_codes
from termprobe.link.base import Link, is_simulated
from termprobe.link.pacer import Pacer
from termprobe.observer.base import Observer
from termprobe.observer.dump import DumpObserver
from termprobe.profile import load as profiles
from termprobe.profile.model import Profile
from termprobe.report.soak_page import line_format_of, told_of, wanted_of

if TYPE_CHECKING:
    from termprobe.cli.soak_screen import ScreenSoak

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
    ("looks", "looks"),
)
"""(option, where its value stands) of what a soak that goes on keeps to."""


class WantedSoak(NamedTuple):
    """What is asked for: a new soak, or one that goes on."""

    port: str
    profile: str
    """Id or path; empty where none is told."""
    begun: SoakBegun
    far: Far


class SoakedLine(NamedTuple):
    """The line of a soak."""

    link: Link
    profile: Profile | None = None
    observer: Observer | None = None
    """Who sees the screen, where that is compared."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the words of this command to `parser`."""
    parser.add_argument("--port", metavar="URL", help="device path or pyserial URL")
    _add_length(parser)
    add_line_options(parser)
    parser.add_argument("--handshake", choices=HANDSHAKES, help="who may stop whom (default: none)")
    parser.add_argument(
        "--printable",
        action="store_true",
        help="send printable characters alone, where control codes would do harm on the way",
    )
    parser.add_argument(
        "--dump",
        metavar="COMMAND",
        help="compare full screens, of which this program prints one, and not what comes back",
    )
    parser.add_argument(
        "--screen", action="store_true", help="the same with the screen of --port sim:"
    )
    soak_looks.add_argument(parser)
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


def _add_length(parser: argparse.ArgumentParser) -> None:
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


def run(arguments: argparse.Namespace) -> int:
    """Carry the soak out and print its page; return the exit code of its verdict."""
    wanted = _wanted(arguments)
    clock = unwatched_clock(wanted.port)
    with contextlib.ExitStack() as stack:
        line = _line(wanted, arguments.dump, clock)
        stack.callback(line.link.close)
        journal = _journal(arguments, wanted.begun, line.link, clock)
        stack.callback(journal.close)
        _carry_out(journal, line, wanted, arguments.dump, clock)
    soaked = load_soak(journal.path)
    print(soaked.rendered(arguments.json))
    return soaked.exit_code


def _wanted(arguments: argparse.Namespace) -> WantedSoak:
    """Return the soak that is asked for, and how far it is already; raise UsageError."""
    if not arguments.resume:
        begun = _begun(arguments)
        port = _port(arguments.port, begun.is_of_screen)
        return WantedSoak(port, arguments.profile or "", begun, Far())
    given = [f"--{option}" for option, name in AS_IT_WAS_BEGUN if getattr(arguments, name)]
    if given:
        raise UsageError(
            f"on --resume a soak goes on as it was begun, so {', '.join(given)} must not be given; "
            "begin a new one for other settings"
        )
    soaked = load_soak(arguments.resume)
    soak_looks.refuse_each_screen(soaked.begun.has_looks, arguments)
    port = arguments.port
    if not port and soaked.header.link:
        port = soaked.header.link.name
    is_of_screen, has_looks = soaked.begun.is_of_screen, soaked.begun.has_looks
    if is_of_screen and not has_looks and not (arguments.dump or is_simulated(port or "")):
        raise UsageError("--dump must name the program that prints the screen, as at the beginning")
    port = _port(port, is_of_screen)
    return WantedSoak(port, soaked.header.profile, soaked.begun, soaked.far)


def _line(wanted: WantedSoak, dump_command: str | None, clock: Clock) -> SoakedLine:
    """Return the line, with who sees the screen at its end where that is compared."""
    port, format = wanted.port, line_format_of(wanted.begun)
    if not wanted.begun.is_of_screen:
        return SoakedLine(line_at(port, format, clock))
    profile = profiles.load(wanted.profile)
    if wanted.begun.has_looks:
        soak_looks.refuse_unseen(port, profile)
        return SoakedLine(line_at(port, format, clock), profile)
    if not dump_command and not is_simulated(port):
        raise UsageError("--screen must go with --port sim:; --dump shows that of a real board")
    board = open_link(port, profile, clock).board if is_simulated(port) else None
    link = link_to(port, board, format, clock, profile)
    if dump_command:
        return SoakedLine(link, profile, DumpObserver(dump_command, clock))
    assert board is not None
    return SoakedLine(link, profile, screen_observer(board))


def _journal(arguments: argparse.Namespace, begun: SoakBegun, link: Link, clock: Clock) -> Journal:
    """Return the run file: a new one, or the one that is gone on with."""
    used = LinkUsed(link.name, str(link.format), link.note)
    if arguments.resume:
        journal = Journal.reopen(arguments.resume, clock)
        tell_of_link(other_link_in_words(last_link(journal.header, journal.records), used))
        journal.append(Linked(used))
        return journal
    header = Header(
        BoardUnderTest(arguments.board),
        link=used,
        profile=arguments.profile or "",
        script=SOAK,
        tool=f"termprobe {__version__}",
        platform=f"{platform.system()}, Python {platform.python_version()}",
    )
    journal = new_journal(arguments.out, arguments.board or SOAK, header, clock)
    journal.append(begun)
    return journal


def _port(port: str | None, is_of_screen: bool) -> str:
    """Return `port` where it can be soaked; raise UsageError."""
    if not port:
        raise UsageError(
            "--port must name the port with the loopback plug; `termprobe ports` lists them"
        )
    if is_simulated(port) and not is_of_screen:
        raise UsageError(
            f"--port must be a line that brings back what it is sent, and {port} is a simulated "
            "board, which does not; try --port loop://, or --screen for what its screen shows"
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
    soak_looks.refuse_each_screen(bool(arguments.looks), arguments)
    is_of_screen = bool(arguments.dump or arguments.screen or arguments.looks)
    looks = arguments.looks or SoakLength()
    if is_of_screen and not arguments.profile:
        raise UsageError("--profile must say which board it is whose screen is to be compared")
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
        is_of_screen,
        looks.characters,
        looks.seconds,
    )


def _carry_out(
    journal: Journal, line: SoakedLine, wanted: WantedSoak, dump_command: str | None, clock: Clock
) -> None:
    """Soak; where it ends early say how to go on."""
    length, far = wanted_of(wanted.begun), wanted.far
    progress = SoakProgress(length, sys.stderr)
    soak = _soak(journal, line, wanted.begun, far, clock, progress)
    try:
        soak.carry_out(length)
    except BaseException:
        progress.end()
        with_dump = ["--dump", dump_command] if dump_command else []
        going_on = command_line(["termprobe", "soak", "--resume", journal.path, *with_dump])
        Console(sys.stderr).tell(
            f"{progress.line(far)}\nThe soak so far is in {journal.path}; go on with:\n  {going_on}"
        )
        raise
    progress.end()


def _soak(
    journal: Journal,
    line: SoakedLine,
    begun: SoakBegun,
    far: Far,
    clock: Clock,
    told: SoakListener,
) -> "Soak | ScreenSoak | soak_looks.LookedSoak":
    """Return the soak: of the screen where somebody sees it, or of what comes back."""
    codes = PRINTABLE
    if not begun.is_printable and not begun.is_of_screen:
        codes = carried_codes(begun.data_bits, keeps_xon_xoff=begun.handshake != XON_XOFF)
    stream = Stream(codes, begun.seed)

    def keep(far: Far) -> None:
        journal.append(told_of(far))
        journal.forget()

    if line.profile is None:
        return Soak(line.link, clock, stream, far, keep, told, begun.handshake)
    pacer = Pacer(line.link, clock, line.profile.link.character_gap_ms / 1000, begun.handshake)
    if line.observer is None:
        every = SoakLength(begun.look_characters, begun.look_seconds)
        ask = Console(sys.stderr).ask
        return soak_looks.LookedSoak(pacer, clock, line.profile, far, keep, told, ask, every)
    from termprobe.cli.soak_screen import ScreenSoak  # it loads pyte

    return ScreenSoak(pacer, clock, line.profile, stream, far, keep, told, line.observer)
