"""`termprobe render`: the screen that bytes must give."""

import argparse
import json
import sys
from collections.abc import Iterator

from termprobe.cli.console import Console
from termprobe.cli.line_log import add_log_option, sent_in
from termprobe.cli.streams import ClosedInput
from termprobe.errors import EXIT_PASSED, UsageError
from termprobe.findings import nearest
from termprobe.notation import show
from termprobe.profile.load import load
from termprobe.profile.model import Profile
from termprobe.terminal.screen import Screen

CHUNK = 1 << 16
SHOWN = 8
"""So many codes without a meaning are named."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the words of this command to `parser`."""
    parser.add_argument("--profile", metavar="P", required=True, help="id or path of the profile")
    parser.add_argument(
        "--json", action="store_true", help="print one JSON document: rows, cursor, bells, replies"
    )
    parser.add_argument(
        "--set",
        metavar="OPTION=POSITION",
        action="append",
        default=[],
        help="where an option of the board stands, if not as usual; may be given several times",
    )
    add_log_option(parser, "the screen that what was sent in this log of `monitor` must give")
    parser.epilog = (
        "Reads the bytes from standard input where no log is given:\n"
        "  printf 'HELLO\\r\\n' | termprobe render --profile singlebyte-24x80"
    )


def run(arguments: argparse.Namespace) -> int:
    """Print the screen after all bytes of standard input; return the exit code."""
    from termprobe.terminal.reference import Reference  # it loads pyte

    profile = load(arguments.profile)
    reference = Reference(profile)
    reference.set_options(dict(_position(profile, words) for words in arguments.set))
    for data in _pieces(arguments):
        reference.feed(data)
    screen = reference.screen()
    if arguments.json:
        print(_document(screen))
    else:
        print(_page(screen, reference.ignored))
    return EXIT_PASSED


def _position(profile: Profile, words: str) -> tuple[str, str]:
    """Return the option and the position that `words` name; raise UsageError."""
    name, _, position = words.partition("=")
    known = [f"{option.name}={one}" for option in profile.options for one in option.positions]
    if words in known:
        return name, position
    allowed = "left out, for this terminal has no option"
    if known:
        allowed = f"one of {', '.join(known)}"
    raise UsageError(f'--set must be {allowed}, not "{words}"{nearest(words, known)}')


def _pieces(arguments: argparse.Namespace) -> Iterator[bytes]:
    """Yield the bytes to render, from a log or from standard input."""
    if arguments.log:
        yield sent_in(arguments.log)
        return
    _refuse_keyboard()
    while data := sys.stdin.buffer.read(CHUNK):
        yield data


def _refuse_keyboard() -> None:
    given = "a keyboard"
    if isinstance(sys.stdin, ClosedInput):
        given = "closed"
    elif not sys.stdin.isatty():
        return
    raise UsageError(
        f"standard input must be a file or a pipe with the bytes, not {given}; "
        "try: printf 'HELLO' | termprobe render --profile singlebyte-24x80"
    )


def _document(screen: Screen) -> str:
    return json.dumps(
        {
            "rows": list(screen.rows),
            "cursor": list(screen.cursor or ()),
            "bells": screen.bells,
            "replies": screen.replies.hex(),
        }
    )


def _page(screen: Screen, ignored: dict[bytes, int]) -> str:
    lines = [Console(sys.stdout).draw(screen)]
    if screen.replies:
        lines.append(f"   sent back: {show(screen.replies)}")
    if ignored:
        shown = ", ".join(_counted(*item) for item in list(ignored.items())[:SHOWN])
        more = ", and more" if len(ignored) > SHOWN else ""
        lines.append(f"   without a meaning in this profile: {shown}{more}")
    return "\n".join(lines)


def _counted(codes: bytes, count: int) -> str:
    if count > 1:
        return f"{show(codes)} x {count}"
    return show(codes)
