"""`termprobe errata`: what belongs to the layout, and what to one board, by the runs of many."""

import argparse
import sys
from typing import TYPE_CHECKING

from termprobe.cli.output import add_json_argument, add_output_argument, add_schema_argument, output
from termprobe.errors import EXIT_PASSED, FileError
from termprobe.notation import visible

if TYPE_CHECKING:
    from collections.abc import Sequence

    from termprobe.errata.batch import Batch
    from termprobe.errata.origin import BatchFindings
    from termprobe.errata.summary import UnreadRun

FORMATS_OF_ERRATA = ("text", "markdown", "html", "json")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the words of this command to `parser`."""
    parser.add_argument(
        "runs",
        nargs="+",
        metavar="RUN",
        help="run file, or a folder: all run files in it and its folders",
    )
    parser.add_argument(
        "--format",
        choices=FORMATS_OF_ERRATA,
        default=FORMATS_OF_ERRATA[0],
        help="text and json: all that the boards show; markdown and html: the errata sheet to "
        "publish with bare boards (default: text)",
    )
    add_json_argument(parser)
    add_schema_argument(parser, _print_schema)
    add_output_argument(parser)
    parser.add_argument(
        "--remedies",
        metavar="FILE",
        help="YAML with the designer's own words for each item of the sheet; where there is no "
        "such file, it is begun with the items found, to be filled in",
    )
    parser.add_argument(
        "--practice",
        action="store_true",
        help="count runs of simulated boards beside those of real ones; without it they count "
        "only where there are no others",
    )


def _print_schema() -> None:
    """Print the schema of the JSON document, made of its records."""
    from termprobe.errata.document_records import ErrataDocument
    from termprobe.report.formats.json import dump
    from termprobe.report.plain import schema_of_one

    print(dump(schema_of_one(ErrataDocument, "Errata of a batch, by termprobe")))


def run(arguments: argparse.Namespace) -> int:
    """Print what the boards show together; the exit code says only that it could be made."""
    from termprobe.cli.summaries import run_files, split, summaries
    from termprobe.errata.batch import batch_of
    from termprobe.errata.origin import findings_of

    paths = run_files(arguments.runs)
    read, unread = split(summaries(paths))
    if not read:
        raise FileError([f"{visible(one.path)}: {one.why}" for one in unread])
    for one in unread:
        print(f"termprobe: left out {visible(one.path)}: {visible(one.why)}", file=sys.stderr)
    batch = batch_of(read, arguments.practice)
    findings = findings_of(batch)
    rendered = _rendered(arguments, batch, findings, unread)
    with output(arguments.output, arguments.format) as stream:
        stream.write(rendered)
    return EXIT_PASSED


def _rendered(
    arguments: argparse.Namespace,
    batch: "Batch",
    findings: "BatchFindings",
    unread: "Sequence[UnreadRun]",
) -> str:
    from termprobe.cli.remedy_file import known_remedies, tell_of_items
    from termprobe.errata.document import errata_document
    from termprobe.errata.page import errata_page
    from termprobe.errata.sheet import sheet_of
    from termprobe.report.formats.json import dump

    sheet = sheet_of(batch, findings, known_remedies(arguments.remedies))
    if arguments.remedies is not None:
        tell_of_items(sheet, arguments.remedies)
    match arguments.format:
        case "json":
            return dump(errata_document(batch, findings, unread)) + "\n"
        case "markdown":
            from termprobe.errata.sheet_markdown import sheet_in_markdown

            return sheet_in_markdown(sheet)
        case "html":
            from termprobe.errata.sheet_html import sheet_in_html

            return sheet_in_html(sheet, batch, findings)
    return errata_page(batch, findings, unread)
