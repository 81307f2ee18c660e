"""A run as one JSON document."""

import json


def run_document(report):
    """Return the document of `run --json`: board, verdict, run, and of each step id, stage, verdict and differing cells."""
    return {
        "board": report.header["board"]["serial"],
        "verdict": report.verdict.verdict,
        "run": report.path,
        "steps": [
            {
                "id": step.id,
                "stage": step.stage,
                "verdict": step.verdict,
                "differs": [list(cell) for cell in step.differs],
            }
            for step in report.verdict.steps
        ],
    }


def report_document(report):
    """Return the document of `report --format json`: that of `run --json` with all that the text report says."""
    document = run_document(report)
    for entry, step in zip(document["steps"], report.verdict.steps, strict=True):
        entry |= {
            "title": step.title,
            "reason": step.reason,
            "evidence": list(step.evidence),
            "observer": step.observer,
            "answers": step.answers,
        }
    verdicts = {step.verdict for step in report.verdict.steps}
    return document | {
        "about": report.header["board"],
        "profile": report.plan.profile_id,
        "script": report.plan.script_id,
        "plan": report.plan.hash,
        "link": report.header.get("link", {}),
        "options": dict(report.options),
        "tool": report.header.get("tool", ""),
        "started": report.header.get("at", ""),
        "ended": report.ended,
        "totals": {verdict: report.verdict.count(verdict) for verdict in sorted(verdicts)},
        "damages": list(report.damages),
        "notes": list(report.notes),
    }


def dump(document):
    """Return the document as text: ASCII, so that no character of a board can act on a console."""
    return json.dumps(document, indent=1, ensure_ascii=True)
