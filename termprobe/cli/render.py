"""`termprobe render`: the screen that bytes must give."""

import sys

from termprobe.cli import console
from termprobe.errors import EXIT_PASSED, UsageError

CHUNK = 1 << 16
SHOWN = 8


def add_arguments(parser):
    """Add the words of this command to `parser`."""
    parser.add_argument("--profile", metavar="P", required=True, help="id or path of the profile")
    parser.add_argument(
        "--json", action="store_true", help="print one JSON document: rows, cursor, bells, replies"
    )
    parser.epilog = "Reads the bytes from standard input:\n  printf 'HELLO\\r\\n' | termprobe render --profile singlebyte-24x80"


def run(arguments):
    """Print the screen after all bytes of standard input; return the exit code."""
    from termprobe.profile.load import load
    from termprobe.terminal.reference import Reference

    reference = Reference(load(arguments.profile))
    if sys.stdin is None or sys.stdin.isatty():
        given = "closed" if sys.stdin is None else "a keyboard"
        raise UsageError(
            f"standard input must be a file or a pipe with the bytes, not {given}; "
            "try: printf 'HELLO' | termprobe render --profile singlebyte-24x80"
        )
    while data := sys.stdin.buffer.read1(CHUNK):
        reference.feed(data)
    print(_document(reference.screen()) if arguments.json else _page(reference))
    return EXIT_PASSED


def _document(screen):
    import json

    return json.dumps(
        {
            "rows": list(screen.rows),
            "cursor": list(screen.cursor),
            "bells": screen.bells,
            "replies": screen.replies.hex(),
        }
    )


def _page(reference):
    from termprobe.notation import show
    from termprobe.plan.show import draw_screen

    screen = reference.screen()
    lines = [draw_screen(screen, console.columns(sys.stdout))]
    if screen.replies:
        lines.append(f"   sent back: {show(screen.replies)}")
    if reference.ignored:
        shown = [
            f"{show(codes)} x {count}" if count > 1 else show(codes)
            for codes, count in reference.ignored.items()
        ]
        more = ", and more" if len(shown) > SHOWN else ""
        lines.append(f"   without a meaning in this profile: {', '.join(shown[:SHOWN])}{more}")
    return "\n".join(lines)
