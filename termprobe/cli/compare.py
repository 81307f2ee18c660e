"""`termprobe compare`: two runs of a board, or a board beside a known-good one."""

import argparse
from typing import TYPE_CHECKING

from termprobe.cli.output import add_json_argument, add_output_argument, add_schema_argument, output
from termprobe.errors import EXIT_FAILED, EXIT_PASSED

if TYPE_CHECKING:
    from termprobe.cli.recorded import Recorded
    from termprobe.report.comparison import RunComparison

FORMATS_OF_COMPARISON = ("text", "html", "json")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the words of this command to `parser`."""
    parser.add_argument("first", metavar="FIRST", help="run file of before, or of a good board")
    parser.add_argument("second", metavar="SECOND", help="run file to be compared with it")
    parser.add_argument(
        "--format",
        choices=FORMATS_OF_COMPARISON,
        default=FORMATS_OF_COMPARISON[0],
        help="format of what is told; html has the screens side by side (default: text)",
    )
    add_json_argument(parser)
    add_schema_argument(parser, _print_schema)
    add_output_argument(parser)


def _print_schema() -> None:
    """Print the schema of the JSON document, made of its records."""
    from termprobe.report.comparison_document import ComparisonDocument
    from termprobe.report.formats.json import dump
    from termprobe.report.plain import schema_of_one

    print(dump(schema_of_one(ComparisonDocument, "Two runs compared by termprobe")))


def run(arguments: argparse.Namespace) -> int:
    """Print what has changed; the exit code is 1 where something fails that had passed."""
    from termprobe.cli.recorded import load_run
    from termprobe.report.comparison import compared

    runs = load_run(arguments.first), load_run(arguments.second)
    found = compared(runs[0].report, runs[1].report)
    with output(arguments.output, arguments.format) as stream:
        stream.write(_rendered(found, runs, arguments.format))
    return EXIT_FAILED if found.is_worse else EXIT_PASSED


def _rendered(found: "RunComparison", runs: "tuple[Recorded, Recorded]", format: str) -> str:
    """Return what has changed in one of the formats."""
    from termprobe.cli.report_page import with_photos
    from termprobe.report.comparison_document import comparison_document
    from termprobe.report.comparison_page import comparison_html, comparison_page
    from termprobe.report.formats.json import dump
    from termprobe.report.shown_photos import pictures_of

    if format == "json":
        return dump(comparison_document(found)) + "\n"
    if format == "text":
        return comparison_page(found)
    first, second = (pictures_of(with_photos(run, run.report)) for run in runs)
    return comparison_html(found, (first, second))
