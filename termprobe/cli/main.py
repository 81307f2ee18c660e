"""The entry point: finds the command, runs it, and makes of every outcome an exit code."""

from __future__ import annotations

import contextlib
import importlib
import os
import sys
from typing import TYPE_CHECKING

from termprobe import __version__
from termprobe.cli.signals import end_undisturbed, interrupt_on_signals
from termprobe.cli.streams import leave_nothing, make_fit
from termprobe.errors import (
    EXIT_CUT_OFF,
    EXIT_INCOMPLETE,
    EXIT_INTERRUPTED,
    EXIT_PASSED,
    EXIT_USAGE,
    TermprobeError,
)

if TYPE_CHECKING:
    import argparse
    from collections.abc import Mapping, Sequence

COMMANDS = {
    "demo": "show the whole job on a simulated board with a fault",
    "session": "full-screen companion at the bench, or plain prompts",
    "run": "carry out a script unattended or at plain prompts",
    "keys": "walk the board's keyboard key by key",
    "note": "add a note or a photo to a run afterwards",
    "report": "what runs have shown, as text, page or JSON",
    "errata": "what belongs to the layout and what to one board, by the runs of many",
    "card": "a checklist to print, for a bench without a computer; and a run of what it says",
    "compare": "two runs side by side: what has changed, screen by screen",
    "profile": "list, show and check profiles of terminals",
    "script": "list, show and check scripts of what to try",
    "diagnose": "which fault would explain a run, and what to probe",
    "explain": "which fault would explain what somebody noticed, without a run",
    "coverage": "which faults of a board a script shows, misses, and which none can",
    "render": "print the screen that bytes must give",
    "link": "prove adapter, cable and line step by step, before any screen is judged",
    "soak": "send over a line that brings it back, for hours, and count what went wrong",
    "monitor": "show what goes over a line both ways, and send keys as typed",
    "sim": "serve a simulated board to any program",
    "baud": "rates of a clock, how wrong they are, and whether a line holds",
    "ports": "list the serial ports of this computer",
}
"""Name of each command -> what it does; its module is `termprobe.cli.NAME`."""

WHERE_TO_BEGIN = """\
termprobe proves a re-created serial video terminal board, and finds what is
wrong with it.

Where to begin:
  termprobe demo                       the whole job on a simulated board
  termprobe session --port sim:random  practise on a board with a hidden fault
  termprobe ports                      which port the cable to your board is on
  termprobe session                    at the bench; it asks what it must know

All commands: termprobe --help. One of them: termprobe COMMAND --help"""


def main(argv: Sequence[str] | None = None) -> int:
    """Run `termprobe ARGV`; return its exit code (README.md lists them).

    Without `argv` it is the program itself: its words, its streams and its signals are this one's.
    """
    if argv is not None:
        return _outcome(list(argv))
    interrupt_on_signals()
    make_fit()
    try:
        exit_code = _outcome(sys.argv[1:])
        end_undisturbed()
    except KeyboardInterrupt:  # once more, while it was ending
        end_undisturbed()
        exit_code = EXIT_INTERRUPTED
    leave_nothing()
    return exit_code


def _outcome(words: list[str]) -> int:
    """Return the exit code; whatever ends the program early is told in a line."""
    try:
        exit_code = _run(words)
        sys.stdout.flush()  # what is printed is read to its end, or that nobody does is met here
        return exit_code
    except TermprobeError as error:
        return _complain(str(error), error.exit_code)
    except KeyboardInterrupt:
        return _complain("interrupted", EXIT_INTERRUPTED)
    except BrokenPipeError:
        return EXIT_CUT_OFF
    except MemoryError:
        return _complain(
            "there must be more memory than this computer has left; nothing was proven. Close what "
            "else needs much, or try a smaller file",
            EXIT_INCOMPLETE,
        )
    except Exception as error:
        if os.environ.get("TERMPROBE_DEBUG"):
            raise
        return _complain(
            f"a mistake in termprobe itself ({type(error).__name__}: {error}); "
            "nothing was proven.\n"
            "Set TERMPROBE_DEBUG=1 and run it again to see where; what a run file holds is safe.",
            EXIT_INCOMPLETE,
        )


def _run(words: list[str]) -> int:
    """Parse the words and carry the command out."""
    if words in (["--version"], ["-V"]):
        print(f"termprobe {__version__}")
        return EXIT_PASSED
    if not words:
        print(WHERE_TO_BEGIN)
        return EXIT_PASSED
    wanted = next((word for word in words if not word.startswith("-")), "")
    parser, of_command = _parsers()
    if wanted in of_command:
        _fill(of_command[wanted], wanted)
    try:
        arguments = parser.parse_args(words)
    except SystemExit as end:
        return EXIT_USAGE if end.code else EXIT_PASSED
    exit_code: int = arguments.carry_out(arguments)
    return exit_code


def _parsers() -> tuple[argparse.ArgumentParser, Mapping[str, argparse.ArgumentParser]]:
    """Return the parser of all, and those of the commands by name, without their arguments yet."""
    import argparse

    from termprobe.cli.parser import Parser

    parser = Parser(
        prog="termprobe",
        description="Proves a re-created serial video terminal board, "
        "and finds what is wrong with it.",
        epilog="Start with `termprobe demo`: it needs no hardware. "
        "Help on one command: termprobe COMMAND --help",
    )
    parser.add_argument("-V", "--version", action="version", version=f"termprobe {__version__}")
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", required=True)
    of_command = {
        name: commands.add_parser(
            name,
            help=text,
            description=f"{text[0].upper()}{text[1:]}.",
            formatter_class=argparse.RawDescriptionHelpFormatter,
        )
        for name, text in COMMANDS.items()
    }
    return parser, of_command


def _fill(parser: argparse.ArgumentParser, name: str) -> None:
    """Load the module of the command `name`, and let `parser` know its arguments and course."""
    module = importlib.import_module(f"termprobe.cli.{name}")
    module.add_arguments(parser)
    parser.set_defaults(carry_out=module.run)


def _complain(text: str, exit_code: int) -> int:
    from termprobe.notation import visible

    lines = [visible(line) for line in text.split("\n")]
    with contextlib.suppress(BrokenPipeError):
        print("termprobe: " + "\n".join(lines), file=sys.stderr)
    return exit_code


if __name__ == "__main__":
    sys.exit(main())
