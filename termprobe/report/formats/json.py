"""Runs as one JSON document: an object for one run, a list of them for several."""

import dataclasses
import json
from collections.abc import Sequence

from termprobe.report import words
from termprobe.report.record import RunReport
from termprobe.verdict.model import StepVerdict
from termprobe.verdict.texts import EarlierAnswer, TextInForce, TextsUsed

Document = dict[str, object]


def render(reports: Sequence[RunReport]) -> str:
    """Return all that the text report says, as JSON."""
    documents = [report_document(report) for report in reports]
    return dump(documents[0] if len(documents) == 1 else documents) + "\n"


def run_document(report: RunReport) -> Document:
    """Return the document of `run --json`: board, verdict, run and steps.

    Each step has its id, stage, verdict and differing cells. Only where profile or script changed
    in the run does it have `texts`.
    """
    return _document(report, [_short(step) for step in report.verdict.steps])


def report_document(report: RunReport) -> Document:
    """Return the document of `report --format json`.

    It is that of `run --json` with all that the text report says.
    """
    header = report.header
    steps = report.verdict.steps
    verdicts = {step.verdict for step in steps}
    return _document(report, [_short(step) | _long(step) for step in steps]) | {
        "about": _plain(header.board),
        "profile": report.plan.profile_id,
        "script": report.plan.script_id,
        "plan": report.plan.hash,
        "link": _plain(header.link) if header.link else {},
        "options": dict(report.options),
        "tool": header.tool,
        "started": header.at,
        "ended": report.ended,
        "totals": {verdict: report.verdict.count(verdict) for verdict in sorted(verdicts)},
        "damages": list(report.damages),
        "notes": list(report.notes),
    }


def _document(report: RunReport, steps: list[Document]) -> Document:
    document: Document = {
        "board": report.header.board.serial,
        "verdict": report.verdict.verdict,
        "run": report.path,
        "steps": steps,
    }
    if report.texts is not None:
        document["texts"] = _texts(report.texts)
    return document


def _texts(used: TextsUsed) -> Document:
    """Return all texts of the run, and the answers that count no more since steps changed."""
    pairs = zip(used.texts, used.judged, strict=True)
    return {
        "used": [_text(text, judged) for text, judged in pairs],
        "earlier_answers": [_earlier(answer) for answer in used.earlier],
    }


def _text(text: TextInForce, judged: tuple[str, ...]) -> Document:
    return {
        "since": text.since,
        "changed": list(text.changed),
        "plan": text.plan.hash,
        "judged": list(judged),
    }


def _earlier(answer: EarlierAnswer) -> Document:
    then = answer.then
    own = {"id": then.id, "text": answer.text, "verdict": then.verdict}
    return own | {"reason": words.reason(then), "now": answer.now}


def _short(step: StepVerdict) -> Document:
    cells = [list(cell) for cell in step.differs]
    return {"id": step.id, "stage": step.stage, "verdict": step.verdict, "differs": cells}


def _long(step: StepVerdict) -> Document:
    return {
        "title": step.title,
        "reason": words.reason(step),
        "evidence": list(words.evidence(step)),
        "observer": step.observer,
        "not_seen": list(step.not_seen),
        "answers": step.answers,
    }


def _plain(part: object) -> Document:
    """Return the fields of a part of the header."""
    assert dataclasses.is_dataclass(part) and not isinstance(part, type)
    return {name: value for name, value in dataclasses.asdict(part).items() if name != "more"}


def dump(document: object) -> str:
    """Return the document as text: ASCII, so that no character of a board can act on a console."""
    return json.dumps(document, indent=1, ensure_ascii=True)
