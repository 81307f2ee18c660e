"""A run as the records of its JSON document. Pure."""

from collections.abc import Callable, Iterator
from typing import TypeVar

from termprobe.report import document_parts, words
from termprobe.report.document import (
    AnyRun,
    BoardTold,
    CauseTold,
    CountsTold,
    DifferingTold,
    KnownFaultTold,
    NoteTold,
    ReportDocument,
    RunDocument,
    StepReported,
    StepTold,
    SuspectTold,
)
from termprobe.report.facts.claims import claims
from termprobe.report.facts.notes import note_facts
from termprobe.report.facts.sheet import sheet
from termprobe.report.headline import headline
from termprobe.report.record import RunReport
from termprobe.report.run_notes import RunNote
from termprobe.verdict.counts import counts
from termprobe.verdict.model import DISPUTED, Differing, StepVerdict

_Found = TypeVar("_Found")
_Made = TypeVar("_Made")
COUNTED, MARKED = "counted", "marked, perhaps not all"
"""How differing cells are known: of a whole screen, or by a builder's marks."""


def run(report: RunReport) -> RunDocument:
    """Return the document of `run --json`."""
    return RunDocument(**vars(_any(report)), steps=tuple(map(_short, report.verdict.steps)))


def report(told: RunReport) -> ReportDocument:
    """Return the document of `report --format json`."""
    header, board = told.header, told.header.board
    link = _if_known(header.link, document_parts.link)
    verdicts = sorted({step.verdict for step in told.verdict.steps})
    return ReportDocument(
        **vars(_any(told)),
        steps=tuple(map(_long, told.verdict.steps)),
        about=BoardTold(board.serial, board.revision, board.builder, board.fitted, board.batch),
        profile=told.plan.profile_id,
        script=told.plan.script_id,
        plan=told.plan.hash,
        link=link,
        links=tuple(map(document_parts.link_span, told.links)),
        options=dict(told.options),
        tool=header.tool,
        started=header.at,
        ended=told.ended,
        totals={verdict: told.verdict.count(verdict) for verdict in verdicts},
        damages=told.damages,
        remarks=told.notes,
        notes=tuple(_note(told, note) for note in told.noted),
        known_faults=tuple(_known_faults(told)),
        suspects=suspects(told),
        causes=tuple(CauseTold(one.fault, one.title, one.steps) for one in told.causes),
        claims=claims(told),
        digest=told.digest,
        facts=sheet(told),
    )


def suspects(told: RunReport) -> tuple[SuspectTold, ...]:
    """Return the suspects, best first; none where nothing failed and no key was pressed."""
    if told.diagnosis is not None:
        found = told.diagnosis.suspects
    elif told.keys is not None:
        found = told.keys.conclusion.suspects
    else:
        return ()
    return tuple(
        SuspectTold(one.faults, one.title, one.block, round(one.probability, 4)) for one in found
    )


def _any(told: RunReport) -> AnyRun:
    line = headline(told.board_name, told.plan, told.verdict, told.scope)
    return AnyRun(
        board=told.header.board.serial,
        verdict=told.verdict.verdict,
        kind=told.scope.kind,
        practice=told.scope.is_practice,
        headline=line,
        counts=_counts(told),
        disputed=tuple(step.id for step in told.verdict.steps if step.verdict == DISPUTED),
        not_covered=told.not_covered,
        run=told.path,
        card=told.scope.is_from_card or None,
        texts=_if_known(told.texts, document_parts.texts),
        after=_if_known(told.changes, document_parts.changes),
        attention=_if_known(told.checks, document_parts.attention),
    )


def _if_known(found: _Found | None, tell: Callable[[_Found], _Made]) -> _Made | None:
    """Return what is told of what was found; None where nothing was."""
    return None if found is None else tell(found)


def _counts(told: RunReport) -> CountsTold:
    found = counts(told.verdict.steps)
    return CountsTold(found.all, found.done, found.covered, found.not_fitted, told.scope.left_out)


def _known_faults(told: RunReport) -> Iterator[KnownFaultTold]:
    for fault in told.verdict.known_faults:
        names = (fault.fault, *fault.alike)
        yield KnownFaultTold(fault.fault, names, fault.title, fault.explains)


def _note(told: RunReport, note: RunNote) -> NoteTold:
    photo = note_facts(told, note, note.time).photo
    return NoteTold(note.step, note.time, note.text, photo)


def _short(step: StepVerdict) -> StepTold:
    cells = tuple((row, column, must_be, seen) for row, column, must_be, seen in step.differs)
    return StepTold(step.id, step.stage, step.verdict, cells)


def _long(step: StepVerdict) -> StepReported:
    short = _short(step)
    return StepReported(
        short.id,
        short.stage,
        short.verdict,
        short.differs,
        title=step.title,
        reason=words.reason(step),
        evidence=words.evidence(step),
        observer=step.observer,
        not_seen=step.not_seen,
        answers=step.answers,
        differing=_differing(step),
        earlier=tuple(map(document_parts.earlier, step.earlier)),
    )


def _differing(step: StepVerdict) -> DifferingTold | None:
    """Return how many cells differ, and whether all of them or those that a builder marked.

    Characters that were drawn with wrong dots stand beside it with these, where there are any.
    """
    if not isinstance(step.because, Differing):
        return None
    how = COUNTED if step.because.is_counted else MARKED
    misdrawn = dict(step.because.misdrawn) or None
    return DifferingTold(step.because.cells, how, misdrawn)
