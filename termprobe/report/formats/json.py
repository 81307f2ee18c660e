"""Runs as one JSON document: an object for one run, a list of them for several."""

import json
from collections.abc import Sequence

from termprobe.report import document_of
from termprobe.report.plain import Plain, plain, plain_record
from termprobe.report.record import RunReport


def render(reports: Sequence[RunReport]) -> str:
    """Return all that the other formats say, as JSON; `report --schema` prints its schema."""
    documents = [report_document(report) for report in reports]
    return dump(documents[0] if len(documents) == 1 else documents) + "\n"


def run_document(report: RunReport) -> Plain:
    """Return the document of `run --json`: board, verdict and how far it goes, run and steps.

    A part of a script on which all is well has the verdict pass and the kind part. Each step has
    its id, stage, verdict and differing cells. Only where profile or script changed in the run does
    it have `texts`.
    """
    return plain_record(document_of.run(report))


def report_document(report: RunReport) -> Plain:
    """Return the document of `report --format json`.

    It is that of `run --json` with all that the other formats say.
    """
    return plain_record(document_of.report(report))


def suspects(report: RunReport) -> list[object]:
    """Return the suspects, best first; none where nothing failed and no key was pressed."""
    return [plain(one) for one in document_of.suspects(report)]


def dump(document: object) -> str:
    """Return the document as text: ASCII, so that no character of a board can act on a console."""
    return json.dumps(document, indent=1, ensure_ascii=True)
