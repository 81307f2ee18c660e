"""The report of a walk over a keyboard, with the faults that would explain what came."""

from termprobe.report.formats import json, text
from termprobe.report.record import RunReport


def key_report(report: RunReport, is_json: bool) -> str:
    """Return the report and its suspects as text, or as one JSON document."""
    if not is_json:
        return text.page(report)
    document = json.run_document(report) | {"suspects": json.suspects(report)}
    return json.dump(document) + "\n"
