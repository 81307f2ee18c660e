"""termprobe sim: a simulated board that any program can open."""

import argparse
import contextlib
import os
import signal
import sys
from collections.abc import Callable, Iterator

from termprobe.board.base import TubePicture
from termprobe.board.board import Board
from termprobe.board.endpoint import Endpoint
from termprobe.board.faults.catalogue import catalogue, keyboard_catalogue
from termprobe.board.faults.model import Fault
from termprobe.board.hand_commands import HAND_COMMANDS, CommandedHands
from termprobe.board.link import SimLink
from termprobe.board.screen_file import ScreenFile
from termprobe.board.serve import serve
from termprobe.board.tcp_end import TcpEndpoint
from termprobe.clock import SystemClock
from termprobe.errors import EXIT_PASSED, UsageError
from termprobe.profile.load import load
from termprobe.profile.model import Profile


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the arguments."""
    parser.add_argument(
        "--profile",
        required=True,
        metavar="P",
        help="id or path of the profile; to be served, it must have a section circuit",
    )
    parser.add_argument(
        "--fault",
        action="append",
        default=[],
        metavar="NAME",
        help="a fault that the board has; may be given several times",
    )
    where = parser.add_mutually_exclusive_group(required=True)
    where.add_argument(
        "--faults", action="store_true", help="list the faults that such a board can have, and end"
    )
    where.add_argument(
        "--pty",
        metavar="PATH",
        help="answer on a pseudo-terminal, to which PATH will be a symbolic link",
    )
    where.add_argument(
        "--tcp",
        metavar="HOST:PORT",
        help="answer on a TCP port; a port alone, or :PORT, is open to this computer only",
    )
    parser.add_argument(
        "--screen",
        metavar="FILE",
        help="keep the rows of the screen and its cursor in FILE, "
        'so that `--dump "cat FILE"` can look at them',
    )
    parser.epilog = (
        f"Lines on the standard input are the hands at the board:\n{HAND_COMMANDS}\n\n"
        "It serves until it is interrupted (Ctrl-C) or terminated; the symbolic\n"
        "link then goes away."
    )


def run(arguments: argparse.Namespace) -> int:
    """List the faults, or serve the board until interrupted; return the exit code."""
    profile = load(arguments.profile)
    if arguments.faults:
        _list(profile)
    else:
        _serve(Board(profile, arguments.fault), arguments)
    return EXIT_PASSED


def _list(profile: Profile) -> None:
    if profile.circuit is None and profile.keyboard is not None:
        _print_table(keyboard_catalogue(profile))
        print(
            "\nOf this profile the keyboard alone can be simulated, "
            "by `termprobe keys --port sim:FAULT`."
        )
        return
    _print_table(catalogue(profile))
    rows, columns = profile.display.rows, profile.display.columns
    print(
        f"\nBesides these: cell/stuck/ROW-COLUMN-BIT/LEVEL for each bit of {rows} x {columns} "
        "RAM cells, and baud/ratio/RATIO for any other speed of the line's clock."
    )


def _print_table(faults: dict[str, Fault]) -> None:
    width = max(map(len, faults))
    for name, fault in faults.items():
        print(f"{name:<{width}}  {fault.title}  ({fault.block})")


def _serve(board: Board, arguments: argparse.Namespace) -> None:
    hands = CommandedHands(board, _standard_input(), _complain)
    with (
        _ended_by_sigterm(),
        contextlib.closing(_endpoint(arguments)) as end,
        contextlib.suppress(KeyboardInterrupt),
    ):
        print(f"a board of {board.profile.id} answers on {end.name}; Ctrl-C ends it", flush=True)
        serve(SimLink(board, SystemClock()), end, hands, _shower(arguments.screen))


@contextlib.contextmanager
def _ended_by_sigterm() -> Iterator[None]:
    """For the time of the block let SIGTERM end it as Ctrl-C does."""
    previous = signal.signal(signal.SIGTERM, signal.default_int_handler)
    try:
        yield
    finally:
        signal.signal(signal.SIGTERM, previous)


def _endpoint(arguments: argparse.Namespace) -> Endpoint:
    if arguments.tcp:
        return TcpEndpoint(arguments.tcp)
    if os.name != "posix":
        raise UsageError("--pty needs a system with pseudo-terminals; use --tcp HOST:PORT here")
    from termprobe.board.pty_end import PtyEndpoint  # POSIX alone has what it needs

    return PtyEndpoint(arguments.pty)


def _shower(path: str | None) -> Callable[[TubePicture], None]:
    """Return what to do with a screen that may have changed: write it into the file, if any."""
    if path is None:
        return _show_nowhere
    return ScreenFile(path).show


def _show_nowhere(_screen: TubePicture) -> None:
    pass


def _complain(text: str) -> None:
    print(f"termprobe: {text}", file=sys.stderr, flush=True)


def _standard_input() -> int | None:
    """Return the descriptor to wait for lines on, or None where there is none."""
    if os.name == "nt" or sys.stdin is None:
        return None
    try:
        return sys.stdin.fileno()
    except (OSError, ValueError):
        return None
