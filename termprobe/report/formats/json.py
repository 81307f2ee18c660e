"""Runs as one JSON document: an object for one run, a list of them for several."""

import dataclasses
import json
from collections.abc import Sequence

from termprobe.journal.spans import LinkSpan
from termprobe.report import earlier_words, known_fault_words, words
from termprobe.report.after_words import changes_document
from termprobe.report.attention_words import checks_document
from termprobe.report.headline import headline
from termprobe.report.key_suspects import suspects_document
from termprobe.report.record import RunReport
from termprobe.report.suspects import suspects_list
from termprobe.verdict.counts import counts
from termprobe.verdict.model import DISPUTED, Differing, Earlier, StepVerdict
from termprobe.verdict.texts import EarlierAnswer, TextInForce, TextsUsed

Document = dict[str, object]
COUNTED, MARKED = "counted", "marked, perhaps not all"
"""How differing cells are known: of a whole screen, or by a builder's marks."""


def render(reports: Sequence[RunReport]) -> str:
    """Return all that the text report says, as JSON."""
    documents = [report_document(report) for report in reports]
    return dump(documents[0] if len(documents) == 1 else documents) + "\n"


def run_document(report: RunReport) -> Document:
    """Return the document of `run --json`: board, verdict and how far it goes, run and steps.

    A part of a script on which all is well has the verdict pass and the kind part. Each step has
    its id, stage, verdict and differing cells. Only where profile or script changed in the run does
    it have `texts`.
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
        "links": [_link(span) for span in report.links],
        "options": dict(report.options),
        "tool": header.tool,
        "started": header.at,
        "ended": report.ended,
        "totals": {verdict: report.verdict.count(verdict) for verdict in sorted(verdicts)},
        "damages": list(report.damages),
        "remarks": list(report.notes),
        "notes": [dataclasses.asdict(note) for note in report.noted],
        "known_faults": known_fault_words.documents(report.verdict.known_faults),
        "suspects": suspects(report),
        "causes": [
            {"fault": one.fault, "title": one.title, "steps": list(one.steps)}
            for one in report.causes
        ],
    }


def suspects(report: RunReport) -> list[Document]:
    """Return the suspects, best first; none where nothing failed and no key was pressed."""
    if report.diagnosis is not None:
        return suspects_list(report.diagnosis.suspects)
    return [] if report.keys is None else suspects_document(report.keys.conclusion)


def _document(report: RunReport, steps: list[Document]) -> Document:
    document: Document = {
        "board": report.header.board.serial,
        "verdict": report.verdict.verdict,
        "kind": report.scope.kind,
        "practice": report.scope.is_practice,
        "headline": headline(report.board_name, report.plan, report.verdict, report.scope),
        "counts": _counts(report),
        "disputed": [step.id for step in report.verdict.steps if step.verdict == DISPUTED],
        "not_covered": list(report.not_covered),
        "run": report.path,
        "steps": steps,
    }
    if report.texts is not None:
        document["texts"] = _texts(report.texts)
    if report.changes is not None:
        document["after"] = changes_document(report.changes)
    if report.checks is not None:
        document["attention"] = checks_document(report.checks)
    return document


def _texts(used: TextsUsed) -> Document:
    """Return all texts of the run, and the answers that count no more since steps changed."""
    pairs = zip(used.texts, used.judged, strict=True)
    return {
        "used": [_text(text, judged) for text, judged in pairs],
        "earlier_answers": [_earlier_answer(answer) for answer in used.earlier],
    }


def _text(text: TextInForce, judged: tuple[str, ...]) -> Document:
    return {
        "since": text.since,
        "changed": list(text.changed),
        "plan": text.plan.hash,
        "judged": list(judged),
    }


def _earlier_answer(answer: EarlierAnswer) -> Document:
    then = answer.then
    own = {"id": then.id, "text": answer.text, "verdict": then.verdict}
    return own | {"reason": words.reason(then), "now": answer.now}


def _counts(report: RunReport) -> Document:
    """Return how many steps are counted, were answered, and were left out of the run."""
    found = counts(report.verdict.steps)
    return {
        "steps": found.all,
        "done": found.done,
        "covered": found.covered,
        "not_fitted": found.not_fitted,
        "left_out": report.scope.left_out,
    }


def _link(span: LinkSpan) -> Document:
    return _plain(span.link) | {
        "start": span.start,
        "end": span.end,
        "practice": span.is_practice,
        "steps": list(span.steps),
    }


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
        "differing": _differing(step),
        "earlier": [_earlier(one) for one in step.earlier],
    }


def _earlier(earlier: Earlier) -> Document:
    """Return an answer that does not count any more."""
    return {
        "verdict": earlier.verdict,
        "reason": earlier_words.reason(earlier),
        "taken_back": earlier.is_taken_back,
    }


def _differing(step: StepVerdict) -> Document | None:
    """Return how many cells differ, and whether all of them or those that a builder marked.

    Characters that were drawn with wrong dots stand beside it with these, where there are any.
    """
    if not isinstance(step.because, Differing):
        return None
    how = COUNTED if step.because.is_counted else MARKED
    told: Document = {"cells": step.because.cells, "how": how}
    if step.because.misdrawn:
        told["misdrawn"] = dict(step.because.misdrawn)
    return told


def _plain(part: object) -> Document:
    """Return the fields of a part of the header."""
    assert dataclasses.is_dataclass(part) and not isinstance(part, type)
    return {name: value for name, value in dataclasses.asdict(part).items() if name != "more"}


def dump(document: object) -> str:
    """Return the document as text: ASCII, so that no character of a board can act on a console."""
    return json.dumps(document, indent=1, ensure_ascii=True)
