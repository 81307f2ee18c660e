"""Runs as JUnit XML, as servers for continuous integration read it.

A run is a test suite, a step a test case of its stage. What failed is a failure. What this terminal
does not have, and what is blocked by a failure, is skipped. All else that did not pass is an error:
it keeps the board from passing, so that a run that is incomplete is never taken for a good one.
"""

import datetime
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple
from xml.etree import ElementTree

from termprobe.journal.records import StepBegun
from termprobe.notation import visible
from termprobe.report import words
from termprobe.report.earlier_words import re_answered
from termprobe.report.facts.clipping import clipped, clipped_text
from termprobe.report.facts.first_page import FirstPage, first_page
from termprobe.report.facts.notes import note_facts
from termprobe.report.facts.steps import answers_of
from termprobe.report.facts.times import parsed
from termprobe.report.record import RunReport
from termprobe.report.run_notes import of_step
from termprobe.verdict import model
from termprobe.verdict.model import StepVerdict, is_unheard

FAILURE, ERROR, SKIPPED = "failure", "error", "skipped"
PACKAGE = "termprobe"


class NotPassed(NamedTuple):
    """What a step that did not pass is in this format."""

    kind: str
    message: str
    text: str


def render(reports: Sequence[RunReport]) -> str:
    """Return the runs as one document; control characters in it are shown as escapes."""
    root = ElementTree.Element("testsuites")
    for number, report in enumerate(reports):
        _add_run(root, number, report)
    ElementTree.indent(root)
    text = ElementTree.tostring(root, encoding="unicode")
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{text}\n'


def _add_run(root: ElementTree.Element, number: int, report: RunReport) -> None:
    first = clipped(first_page(report))
    outcomes = {step.id: outcome(step, report) for step in report.verdict.steps}
    kinds = [one.kind for one in outcomes.values() if one is not None]
    suite = ElementTree.SubElement(
        root,
        "testsuite",
        _attributes(
            name=f"{report.board_name}: {report.plan.title}",
            tests=str(len(report.verdict.steps)),
            failures=str(kinds.count(FAILURE)),
            errors=str(kinds.count(ERROR)),
            skipped=str(kinds.count(SKIPPED)),
            time=f"{_seconds(report.header.at, report.ended):.3f}",
            timestamp=_timestamp(report.header.at),
            id=str(number),
            package=PACKAGE,
        ),
    )
    _add_properties(suite, first)
    times = _times(report)
    titles = {stage.id: stage.title for stage in report.plan.stages}
    for step in report.verdict.steps:
        where = titles.get(step.stage, step.stage)
        case = _add_step(suite, step, where, times.get(step.id, 0.0), outcomes[step.id])
        _add_notes(case, report, step)
    ElementTree.SubElement(suite, "system-out").text = _shown(list(_told(first)))


def _add_properties(suite: ElementTree.Element, first: FirstPage) -> None:
    """Add what identifies the run, and the verdict."""
    properties = ElementTree.SubElement(suite, "properties")
    for name, value in (("Verdict", f"{first.word}: {first.told}"), *first.identity):
        ElementTree.SubElement(properties, "property", _attributes(name=name, value=value))


def _add_step(
    suite: ElementTree.Element,
    step: StepVerdict,
    stage: str,
    seconds: float,
    found: NotPassed | None,
) -> ElementTree.Element:
    name = f"{step.title} [{step.id}]"
    own = _attributes(classname=f"{PACKAGE}.{stage}", name=name, time=f"{seconds:.3f}")
    case = ElementTree.SubElement(suite, "testcase", own)
    if found is not None:
        told = _attributes(message=found.message, type=step.verdict)
        ElementTree.SubElement(case, found.kind, told).text = _shown(found.text.split("\n"))
    return case


def _add_notes(case: ElementTree.Element, report: RunReport, step: StepVerdict) -> None:
    """Add what was noted at a step, and what its answers before the one that counts said."""
    noted = (note_facts(report, note, note.time) for note in of_step(report.noted, step.id))
    told = [f"noted {note.time}: {note.told}" for note in noted]
    again = re_answered(step)
    if again:
        told.append(again)
    if told:
        ElementTree.SubElement(case, "system-out").text = _shown(told)


def outcome(step: StepVerdict, report: RunReport) -> NotPassed | None:
    """Return what a step is that did not pass; None of one that did."""
    if step.verdict == model.PASS:
        return None
    reason = words.reason(step, report.plan.title_of)
    message = reason or step.verdict
    evidence = "\n".join((message, *words.evidence(step)))
    if step.verdict == model.FAIL:
        return NotPassed(FAILURE, message, evidence)
    is_blocked = step.verdict == model.BLOCKED and not is_unheard(step)
    if is_blocked or step.verdict == model.NOT_FITTED:
        return NotPassed(SKIPPED, message, evidence)
    return NotPassed(ERROR, message, evidence)


def _told(first: FirstPage) -> Iterator[str]:
    """Yield the first page, a line each."""
    yield f"{first.word}: {first.told}"
    yield from first.limits
    for cause in first.causes:
        yield f"{cause.title}: {cause.count} failed by it. Next: {cause.next}"
    yield from (claim.sentence for claim in first.claims)
    for name, text in first.not_tried:
        yield f"not tried: {name} {text}"
    if first.not_there:
        yield first.not_there


def _times(report: RunReport) -> dict[str, float]:
    """Return the id of each step that was answered -> seconds from its beginning to its answer."""
    began = {record.step: record.t for record in _begun(report)}
    answers = answers_of(report)
    known = {step: own[-1].t - began[step] for step, own in answers.items() if step in began}
    return {step: max(0.0, seconds) for step, seconds in known.items()}


def _begun(report: RunReport) -> Iterator[StepBegun]:
    """Yield the record of the beginning of each step, the last one of each last."""
    return (record for record in report.records if isinstance(record, StepBegun))


def _seconds(start: str, end: str) -> float:
    first, last = parsed(start), parsed(end)
    if first is None or last is None:
        return 0.0
    return max(0.0, (last - first).total_seconds())


def _timestamp(at: str) -> str:
    """Return a moment as the format has it: without a zone, in that of Greenwich."""
    moment = parsed(at, datetime.UTC)
    return "" if moment is None else f"{moment:%Y-%m-%dT%H:%M:%S}"


def _attributes(**texts: str) -> dict[str, str]:
    """Return attributes that hold nothing but what can be shown, in one line each."""
    return {name: visible(clipped_text(text)) for name, text in texts.items()}


def _shown(lines: Iterable[str]) -> str:
    """Return lines with all in them that is not plain text as escapes."""
    return "\n".join(visible(clipped_text(line)) for line in lines)
