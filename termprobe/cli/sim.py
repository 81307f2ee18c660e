"""termprobe sim: a simulated board that any program can open."""

import argparse
import contextlib
import os
import signal
import sys
from collections import Counter
from collections.abc import Iterator

from termprobe.board.board import Board
from termprobe.board.endpoint import Endpoint
from termprobe.board.faults.catalogue import catalogue, keyboard_catalogue
from termprobe.board.faults.model import Fault
from termprobe.board.hand_commands import HAND_COMMANDS, CommandedHands
from termprobe.board.link import SimLink
from termprobe.board.serve import serve
from termprobe.board.tcp_end import TcpEndpoint
from termprobe.cli.sim_window import shower, window_for
from termprobe.clock import SystemClock
from termprobe.errors import EXIT_PASSED, UsageError
from termprobe.findings import nearest, quoted
from termprobe.profile.load import load
from termprobe.profile.model import Profile

SUMMARY, ALL = "", "all"
"""What --faults is given to count the faults of each block, and to list all."""

DOTS_BESIDE = (
    " Of the characters' drawings glyph-cell/stuck/CODE-ROW-COLUMN/LEVEL for each dot, the code in "
    "decimal."
)


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
    _add_where(parser)
    _add_screen(parser)
    parser.epilog = (
        f"Lines on the standard input are the hands at the board:\n{HAND_COMMANDS}\n\n"
        "It serves until it is interrupted (Ctrl-C) or terminated; the symbolic\n"
        "link then goes away."
    )


def _add_where(parser: argparse.ArgumentParser) -> None:
    where = parser.add_mutually_exclusive_group(required=True)
    where.add_argument(
        "--faults",
        nargs="?",
        const=SUMMARY,
        metavar="BLOCK",
        help="tell how many faults each block of such a board can have, or list those of one "
        "block, or of all; and end",
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


def _add_screen(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--screen",
        metavar="FILE",
        help="keep the rows of the screen and its cursor in FILE, "
        'so that `--dump "cat FILE"` can look at them',
    )
    parser.add_argument(
        "--show",
        action="store_true",
        help="show the screen of the board live in this window, until Ctrl-C",
    )


def run(arguments: argparse.Namespace) -> int:
    """List the faults, or serve the board until interrupted; return the exit code."""
    profile = load(arguments.profile)
    if arguments.faults is None:
        _serve(Board(profile, arguments.fault), arguments)
    else:
        _list(profile, arguments.faults)
    return EXIT_PASSED


def _list(profile: Profile, block: str) -> None:
    """Print the faults of one block, or of all, or how many each has."""
    is_keyboard_alone = profile.circuit is None and profile.keyboard is not None
    faults = keyboard_catalogue(profile) if is_keyboard_alone else catalogue(profile)
    if block == SUMMARY:
        _print_summary(profile, faults)
    else:
        _print_table(_of_block(faults, block))
    if is_keyboard_alone:
        print(
            "\nOf this profile the keyboard alone can be simulated, "
            "by `termprobe keys --port sim:FAULT`."
        )
    elif block in (SUMMARY, ALL):
        rows, columns = profile.display.rows, profile.display.columns
        print(
            f"\nBesides these: cell/stuck/ROW-COLUMN-BIT/LEVEL for each bit of {rows} x {columns} "
            "RAM cells, and baud/ratio/RATIO for any other speed of the line's clock."
            + DOTS_BESIDE
            * (profile.display.dots is not None)
        )


def _of_block(faults: dict[str, Fault], block: str) -> dict[str, Fault]:
    """Return the faults of a block, or of all; raise UsageError where there is no such block."""
    found = {name: fault for name, fault in faults.items() if block in (ALL, fault.block)}
    if not found:
        known = [ALL, *dict.fromkeys(fault.block for fault in faults.values())]
        raise UsageError(
            f"--faults must be alone, or with one of {', '.join(known)}, "
            f"not {quoted(block)}{nearest(block, known)}"
        )
    return found


def _print_summary(profile: Profile, faults: dict[str, Fault]) -> None:
    """Print each block with how many faults it can have, and the first of these."""
    counts = Counter(fault.block for fault in faults.values())
    firsts = {fault.block: fault for fault in reversed(faults.values())}
    width = max(map(len, counts))
    print(f"{profile.id}: {len(faults)} faults in {len(counts)} blocks\n")
    for block, count in counts.items():
        print(f"{block:<{width}}  {count:>4}  such as {firsts[block].name}")
    print(
        f"\nThose of a block: termprobe sim --profile {profile.id} --faults BLOCK; "
        "of all: --faults all"
    )


def _print_table(faults: dict[str, Fault]) -> None:
    width = max(map(len, faults))
    for name, fault in faults.items():
        print(f"{name:<{width}}  {fault.title}  ({fault.block})")


def _serve(board: Board, arguments: argparse.Namespace) -> None:
    with (
        _ended_by_sigterm(),
        contextlib.closing(_endpoint(arguments)) as end,
        contextlib.suppress(KeyboardInterrupt),
    ):
        name = f"a board of {board.profile.id} answers on {end.name}"
        with contextlib.closing(window_for(name, arguments.show)) as window:
            print(f"{name}; Ctrl-C ends it", flush=True)
            hands = CommandedHands(board, _standard_input(), window.say)
            show = shower(arguments.screen, window)
            serve(SimLink(board, SystemClock()), end, hands, show, window.tick)


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


def _standard_input() -> int | None:
    """Return the descriptor to wait for lines on, or None where there is none."""
    if os.name == "nt" or sys.stdin is None:
        return None
    try:
        return sys.stdin.fileno()
    except (OSError, ValueError):
        return None
