"""`termprobe report`: what runs have shown."""

import argparse

from termprobe.cli.output import add_json_argument, add_output_argument, add_schema_argument, output
from termprobe.cli.recorded import Recorded, load_run
from termprobe.cli.report_page import report_for_page
from termprobe.cli.soaked import is_soak, load_soak
from termprobe.errors import (
    EXIT_FAILED,
    EXIT_INCOMPLETE,
    EXIT_LINK,
    EXIT_PASSED,
    UsageError,
)
from termprobe.notation import visible
from termprobe.report.record import RunReport
from termprobe.report.table import FORMATS

TEXT, PAGE = "text", "html"
OF_SOAKS = (TEXT, "json")
"""Formats in which a soak is told."""
WITH_BLOCKS = (PAGE, "markdown")
"""Formats for which boards with every fault are simulated, where that has not been done yet."""
SCHEMA_TITLE = "Report of termprobe, or a list of several"
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
    add_json_argument(parser)
    add_schema_argument(parser, _print_schema)
    add_output_argument(parser)


def _print_schema() -> None:
    """Print the schema of the JSON report, made of its records."""
    from termprobe.report.document import ReportDocument
    from termprobe.report.formats.json import dump
    from termprobe.report.plain import schema_of

    print(dump(schema_of(ReportDocument, SCHEMA_TITLE)))


def run(arguments: argparse.Namespace) -> int:
    """Print the reports; return the exit code of the worst run."""
    soaks = [path for path in arguments.runs if is_soak(path)]
    if soaks and arguments.format not in OF_SOAKS:
        raise UsageError(
            f"--format must be {' or '.join(OF_SOAKS)} for a soak such as {visible(soaks[0])}, "
            f"not {arguments.format}; leave it out, or report on it by itself"
        )
    loaded = [load_run(path) for path in arguments.runs if path not in soaks]
    codes = set()
    with output(arguments.output, arguments.format) as stream:
        reports = [_report(one, arguments.format) for one in loaded]
        if reports:
            stream.write(FORMATS[arguments.format](reports))
        for path in soaks:
            soaked = load_soak(path)
            stream.write(soaked.rendered(arguments.format == "json") + "\n")
            codes.add(soaked.exit_code)
    codes |= {report.verdict.exit_code for report in reports}
    return next(code for code in WORST_FIRST if code in codes)


def _report(recorded: Recorded, format_: str) -> RunReport:
    """Return what is rendered: for people to pass on, with what is proven of each block."""
    if format_ == PAGE:
        return report_for_page(recorded, works_out=True)
    if format_ in WITH_BLOCKS:
        return recorded.report_with_blocks(works_out=True)
    return recorded.report
