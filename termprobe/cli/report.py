"""`termprobe report`: what runs have shown."""

import argparse

from termprobe.cli.output import output
from termprobe.cli.recorded import load_run
from termprobe.cli.soaked import is_soak, load_soak
from termprobe.errors import (
    EXIT_FAILED,
    EXIT_INCOMPLETE,
    EXIT_LINK,
    EXIT_PASSED,
)
from termprobe.report.table import FORMATS

TEXT = "text"
WORST_FIRST = (EXIT_FAILED, EXIT_LINK, EXIT_INCOMPLETE, EXIT_PASSED)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the words of this command to `parser`."""
    parser.add_argument("runs", nargs="+", metavar="RUN", help="run file; may be several")
    parser.add_argument(
        "--format",
        choices=tuple(FORMATS),
        default=TEXT,
        help="format of the report (default: text)",
    )
    parser.add_argument(
        "-o", dest="output", metavar="FILE", help="write to FILE instead of standard output"
    )


def run(arguments: argparse.Namespace) -> int:
    """Print the reports; return the exit code of the worst run."""
    soaks = [path for path in arguments.runs if is_soak(path)]
    loaded = [load_run(path) for path in arguments.runs if path not in soaks]
    codes = set()
    with output(arguments.output) as stream:
        reports = [one.report for one in loaded]
        if reports:
            stream.write(FORMATS[arguments.format](reports))
        for path in soaks:
            soaked = load_soak(path)
            stream.write(soaked.rendered(arguments.format == "json") + "\n")
            codes.add(soaked.exit_code)
    codes |= {report.verdict.exit_code for report in reports}
    return next(code for code in WORST_FIRST if code in codes)
