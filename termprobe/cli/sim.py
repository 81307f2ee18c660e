"""termprobe sim: a simulated board that any program can open."""

from termprobe.errors import EXIT_PASSED


def add_arguments(parser):
    """Declare the arguments."""
    from termprobe.board.serve import ORDERS

    parser.add_argument(
        "--profile",
        required=True,
        metavar="P",
        help="id or path of the profile; it must have a section circuit",
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
        help='keep the rows of the screen in FILE, so that `--dump "cat FILE"` can look at it',
    )
    parser.epilog = (
        f"Lines on the standard input are the hands at the board:\n{ORDERS}\n\n"
        "It serves until it is interrupted (Ctrl-C) or terminated; the symbolic\nlink then goes away."
    )


def run(arguments):
    """List the faults, or serve the board until interrupted; return the exit code."""
    from termprobe.profile.load import load

    profile = load(arguments.profile)
    if arguments.faults:
        return _list(profile)
    from termprobe.board.board import Board

    return _serve(Board(profile, arguments.fault), arguments)


def _list(profile):
    from termprobe.board.faults.catalogue import catalogue
    from termprobe.board.faults.key_matrix import keyboard_catalogue

    is_whole = profile.circuit is not None or profile.keyboard is None
    faults = (catalogue if is_whole else keyboard_catalogue)(profile).values()
    width = max(len(fault.name) for fault in faults)
    for fault in faults:
        print(f"{fault.name:<{width}}  {fault.title}  ({fault.block})")
    if not is_whole:
        print(
            "\nOf this profile the keyboard alone can be simulated, by `termprobe keys --port sim:FAULT`."
        )
        return EXIT_PASSED
    rows, columns = profile.display.rows, profile.display.columns
    print(
        f"\nBesides these: cell/stuck/ROW-COLUMN-BIT/LEVEL for each bit of {rows} x {columns} RAM cells, "
        "and baud/ratio/RATIO for any other speed of the line's clock."
    )
    return EXIT_PASSED


def _serve(board, arguments):
    import signal
    import sys

    from termprobe.board.endpoint import PtyEnd, TcpEnd
    from termprobe.board.link import SimLink
    from termprobe.board.serve import ScreenFile, Hands, serve
    from termprobe.clock import SystemClock

    def complain(text):
        print(f"termprobe: {text}", file=sys.stderr, flush=True)

    previous = signal.signal(signal.SIGTERM, signal.default_int_handler)
    end = PtyEnd(arguments.pty) if arguments.pty else TcpEnd(arguments.tcp)
    try:
        show = ScreenFile(arguments.screen).show if arguments.screen else lambda screen: None
        hands = Hands(board, _standard_input(), complain)
        print(f"a board of {board.profile.id} answers on {end.name}; Ctrl-C ends it", flush=True)
        serve(SimLink(board, SystemClock()), end, hands, show)
    except KeyboardInterrupt:
        return EXIT_PASSED
    finally:
        end.close()
        signal.signal(signal.SIGTERM, previous)


def _standard_input():
    """Return the descriptor to wait for lines on, or None where there is none."""
    import os
    import sys

    try:
        return None if os.name == "nt" or sys.stdin is None else sys.stdin.fileno()
    except (OSError, ValueError):
        return None
