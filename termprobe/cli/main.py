"""The entry point: finds the command, runs it, and turns every outcome into an exit code and a plain message."""

import importlib
import os
import sys

from termprobe import __version__
from termprobe.errors import EXIT_INCOMPLETE, EXIT_INTERRUPTED, EXIT_USAGE, TermprobeError

COMMANDS = {
    "demo": "show the whole job on a simulated board with a fault",
    "session": "full-screen companion at the bench, or plain prompts",
    "run": "carry out a script unattended or at plain prompts",
    "keys": "walk the board's keyboard key by key",
    "report": "what a run has shown: text or JSON",
    "profile": "list, show and check profiles of terminals",
    "script": "list, show and check scripts of what to try",
    "render": "print the screen that bytes must give",
    "sim": "serve a simulated board to any program",
    "ports": "list the serial ports of this computer",
}


def main(argv=None):
    """Run `termprobe ARGV`; return its exit code (README.md lists them)."""
    argv = sys.argv[1:] if argv is None else argv
    if argv in (["--version"], ["-V"]):
        print(f"termprobe {__version__}")
        return 0
    try:
        return _run(argv)
    except TermprobeError as error:
        return _complain(str(error), error.exit_code)
    except KeyboardInterrupt:
        return _complain("interrupted", EXIT_INTERRUPTED)
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return EXIT_INCOMPLETE
    except Exception as error:  # pylint: disable=broad-except
        if os.environ.get("TERMPROBE_DEBUG"):
            raise
        return _complain(
            f"a mistake in termprobe itself ({type(error).__name__}: {error}); nothing was proven.\n"
            "Set TERMPROBE_DEBUG=1 and run it again to see where; what a run file holds is safe.",
            EXIT_INCOMPLETE,
        )


def _run(argv):
    import argparse

    parser = argparse.ArgumentParser(
        prog="termprobe",
        description="Proves a re-created serial video terminal board, and finds what is wrong with it.",
        epilog="Start with `termprobe demo`: it needs no hardware. Help on one command: termprobe COMMAND --help",
    )
    parser.add_argument("-V", "--version", action="version", version=f"termprobe {__version__}")
    commands = parser.add_subparsers(
        dest="command", metavar="COMMAND", required=True, parser_class=argparse.ArgumentParser
    )
    wanted = next((word for word in argv if not word.startswith("-")), None)
    module, chosen = None, parser
    for name, text in COMMANDS.items():
        command = commands.add_parser(
            name,
            help=text,
            description=text[0].upper() + text[1:] + ".",
            formatter_class=argparse.RawDescriptionHelpFormatter,
        )
        if name == wanted:
            module = importlib.import_module(f"termprobe.cli.{name}")
            module.add_arguments(command)
            chosen = command
    try:
        arguments, unknown = parser.parse_known_args(argv)
        if unknown:
            chosen.error(f"words must be those of `{chosen.prog} --help`, not {' '.join(unknown)}")
    except SystemExit as end:
        return EXIT_USAGE if end.code else 0
    return module.run(arguments)


def _complain(text, exit_code):
    from termprobe.notation import visible

    print("termprobe: " + "\n".join(visible(line) for line in text.split("\n")), file=sys.stderr)
    return exit_code


if __name__ == "__main__":
    sys.exit(main())
