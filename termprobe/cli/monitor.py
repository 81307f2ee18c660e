"""`termprobe monitor`: what goes over a line, both ways, as it goes, and keys sent as typed."""

import argparse
import contextlib
import sys
from typing import TextIO

from termprobe.cli.console import is_full_screen
from termprobe.cli.line_options import add_line_options, line_of, span
from termprobe.cli.monitored import Monitored
from termprobe.cli.opened_line import line_at, open_link
from termprobe.clock import Clock, SystemClock
from termprobe.errors import EXIT_PASSED, FileError, UsageError
from termprobe.line.bursts import CAME, SENT
from termprobe.link.base import LineFormat, Link, is_simulated
from termprobe.notation import NotationError, parse
from termprobe.profile import load as profiles
from termprobe.report.monitor_lines import LEGEND

OF_ONE_S = 0.02
OF_BOTH_S = 0.01
"""How long one of two ports is listened to before the other."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the words of this command to `parser`."""
    parser.add_argument("--port", metavar="URL", help="device path or pyserial URL of the board")
    parser.add_argument(
        "--through",
        metavar="URL",
        help="port of a computer: what it sends goes to the board, and what comes from there to it",
    )
    add_line_options(parser)
    parser.add_argument(
        "--send",
        metavar="TEXT",
        action="append",
        default=[],
        help="send this at the beginning: plain text, or bytes in the notation of profiles",
    )
    parser.add_argument(
        "--for", dest="seconds", metavar="TIME", type=span, help="end after 90, 10m, 24h"
    )
    parser.add_argument(
        "--log", metavar="FILE", help="keep it all in a new FILE, for render and explain --from"
    )
    parser.epilog = (
        "Every key is sent as it is typed, Ctrl-C too; leave with Ctrl-]. Where the input\n"
        "is no keyboard it only listens, until it is interrupted. Nothing that comes from\n"
        "the board acts on this console: all of it is shown in the notation of profiles."
    )


def run(arguments: argparse.Namespace) -> int:
    """Show what goes over the line until it is left, interrupted, or the time is over."""
    if not arguments.port:
        raise UsageError("--port must name the port of the board; `termprobe ports` lists them")
    data = b"".join(map(_bytes_of, arguments.send))
    format, _ = line_of(arguments)
    clock = SystemClock()
    with contextlib.ExitStack() as stack:
        link = _link(arguments, format, clock)
        stack.callback(link.close)
        far = None
        if arguments.through:
            far = line_at(arguments.through, format, clock)
            stack.callback(far.close)
        log = _log(arguments.log, stack)
        monitored = Monitored(format, clock, sys.stdout, log)
        print(LEGEND)
        try:
            _monitor(link, far, monitored, data, arguments.seconds)
        finally:
            monitored.end()
    return EXIT_PASSED


def _link(arguments: argparse.Namespace, format: LineFormat, clock: Clock) -> Link:
    """Return the line to the board, simulated or real."""
    if not is_simulated(arguments.port):
        return line_at(arguments.port, format, clock)
    if not arguments.profile:
        raise UsageError("--profile must say which board --port sim: simulates")
    return open_link(
        arguments.port, profiles.load(arguments.profile), clock, format.speed_baud
    ).link


def _bytes_of(text: str) -> bytes:
    """Return the bytes of --send: in the notation, or as they are; raise UsageError."""
    with contextlib.suppress(NotationError):
        return parse(text)
    if not text.isascii():
        raise UsageError(
            f"--send must be plain ASCII, or names (ESC), quoted text or hexadecimal, not {text!r}"
        )
    return text.encode("ascii")


def _log(path: str | None, stack: contextlib.ExitStack) -> TextIO | None:
    if path is None:
        return None
    try:
        return stack.enter_context(open(path, "x", encoding="ascii"))
    except OSError as error:
        raise FileError(
            [f"{path}: must be a new file that can be written ({error.strerror})"]
        ) from None


def _monitor(
    link: Link, far: Link | None, monitored: Monitored, data: bytes, seconds: float | None
) -> None:
    """Send `data`, then pass on and show all that goes over, until it is left."""
    from termprobe.session.raw_keys import LEAVE, raw_keys  # it loads prompt_toolkit

    with contextlib.ExitStack() as stack:
        keys = stack.enter_context(raw_keys()) if is_full_screen() else None
        while seconds is None or monitored.seconds < seconds:
            if data:
                link.write(data)
                monitored.take(SENT, data)
            data = _passed_on(link, far, monitored)
            typed = keys.read() if keys else b""
            before, leave, _ = typed.partition(LEAVE)
            data += before
            if leave:
                return


def _passed_on(link: Link, far: Link | None, monitored: Monitored) -> bytes:
    """Listen for a moment; return what is to be sent to the board."""
    for received in link.read(OF_BOTH_S if far else OF_ONE_S):
        monitored.take(CAME, received.data, received.error, received.at_s)
        if far:
            far.write(received.data)
    monitored.quiet()
    if far is None:
        return b""
    return b"".join(received.data for received in far.read(OF_BOTH_S))
