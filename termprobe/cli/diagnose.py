"""`termprobe diagnose`: which fault would explain what a run has shown, and what to probe."""

import argparse

from termprobe.cli.recorded import load_run
from termprobe.report.formats import text
from termprobe.report.formats.json import dump
from termprobe.report.suspects import diagnosis_document, suspect_lines


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the words of this command to `parser`."""
    parser.add_argument("run", metavar="RUN", help="run file")
    parser.add_argument("--json", action="store_true", help="print one JSON document")


def run(arguments: argparse.Namespace) -> int:
    """Print what would explain the run; return the exit code of its verdict."""
    recorded = load_run(arguments.run)
    found = recorded.diagnosis
    if arguments.json:
        print(dump(diagnosis_document(found)))
    else:
        lines = suspect_lines(found, recorded.plan)
        print("\n".join([text.headline(recorded.report), "", *lines]))
    return recorded.verdict.exit_code
