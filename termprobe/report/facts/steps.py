"""One step of a run with all its evidence: sent, expected, seen, answered, noted. Pure."""

import datetime
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from termprobe import notation
from termprobe.journal.records import Answered
from termprobe.plan.model import Group
from termprobe.report import earlier_words, words
from termprobe.report.facts.cells import cells_in_words
from termprobe.report.facts.clipping import clipped_text
from termprobe.report.facts.notes import NoteFacts, notes_at
from termprobe.report.facts.pictures import ScreenFacts, screen_of
from termprobe.report.facts.readings import ReadingFacts, reading_facts
from termprobe.report.facts.times import clock_time
from termprobe.report.facts.tones import tone_of
from termprobe.report.record import RunReport
from termprobe.verdict import model
from termprobe.verdict.model import StepVerdict

GROUPS_SHOWN, BYTES_SHOWN = 12, 60


class SentFacts(NamedTuple):
    """Bytes that were sent together."""

    what: str
    bytes: str
    """In the notation; of many only the first, and how many there are."""


class AnswerFacts(NamedTuple):
    """One answer of those that were given."""

    time: str
    observer: str
    said: str
    counts: bool


@dataclass(frozen=True)
class StepFacts:
    """What is to be told of a step."""

    id: str
    title: str
    verdict: str
    tone: str
    reason: str = ""
    evidence: tuple[str, ...] = ()
    cells: tuple[str, ...] = ()
    """The first cells that are not as they must be, a phrase each."""
    question: str = ""
    settings: tuple[tuple[str, str], ...] = ()
    """(option, position) that had to hold."""
    sent: tuple[SentFacts, ...] = ()
    sent_bytes: int = 0
    groups_left_out: int = 0
    screen: ScreenFacts | None = None
    reading: ReadingFacts | None = None
    answers: tuple[AnswerFacts, ...] = ()
    re_answered: str = ""
    """`second reading; first 5.5 V`; empty where one answer alone was given."""
    is_covered: bool = False
    """It passes since others do that would have shown all that it would."""
    notes: tuple[NoteFacts, ...] = ()
    drawn: tuple[str, ...] = ()
    """What a check of the line draws, in rows."""


AnswersOfSteps = Mapping[str, Sequence[Answered]]


def answers_of(report: RunReport) -> dict[str, list[Answered]]:
    """Return the id of each step -> its answers, in order; one that amends replaces the last."""
    found: dict[str, list[Answered]] = {}
    for record in report.records:
        if isinstance(record, Answered):
            own = found.setdefault(record.step, [])
            if record.amends and own:
                own.pop()
            own.append(record)
    return found


def step_facts(
    report: RunReport, verdict: StepVerdict, answers: AnswersOfSteps, zone: datetime.tzinfo | None
) -> StepFacts:
    """Return what is to be told of the step that has this verdict."""
    own = answers.get(verdict.id, ())
    last = own[-1] if own and verdict.answers else None
    told = StepFacts(
        id=verdict.id,
        title=verdict.title,
        verdict=verdict.verdict,
        tone=tone_of(verdict.verdict),
        reason=words.reason(verdict, report.plan.title_of),
        evidence=(*words.evidence(verdict), *_told_by_parts(last)),
        cells=cells_in_words(verdict.differs, _variant(verdict)),
        answers=_answers(verdict, own, zone),
        re_answered=earlier_words.re_answered(verdict),
        notes=notes_at(report, verdict.id, zone),
        drawn=words.drawing(verdict),
        is_covered=isinstance(verdict.because, model.Covered),
    )
    if verdict.id not in report.plan.index:
        return told
    return _with_plan(report, told, verdict, last)


def _told_by_parts(last: Answered | None) -> Iterator[str]:
    """Yield what was said of parts of the screen, in one phrase, if they were asked about."""
    regions = last.answer.regions if last is not None else ()
    told = [
        f"{notation.visible(region)} {'wrong' if is_wrong else 'right'}"
        for region, is_wrong in regions
    ]
    if told:
        yield f"asked by parts: {', '.join(told)}"


def _variant(verdict: StepVerdict) -> str:
    """Return the national character set in which what differs was shown; empty for ASCII."""
    return verdict.evidence.variant if verdict.evidence else ""


def _with_plan(
    report: RunReport, told: StepFacts, verdict: StepVerdict, last: Answered | None
) -> StepFacts:
    """Return the facts with what the plan tells of the step, and of what was sent if it was."""
    step = report.plan.step(verdict.id)
    told = replace(
        told,
        question=step.question,
        settings=step.settings,
        reading=reading_facts(step, verdict),
    )
    if not verdict.answers:
        return told
    return replace(
        told,
        sent=tuple(map(_sent, step.groups[:GROUPS_SHOWN])),
        sent_bytes=len(step.data),
        groups_left_out=max(0, len(step.groups) - GROUPS_SHOWN),
        screen=screen_of(report.plan, step, verdict, last),
    )


def _sent(group: Group) -> SentFacts:
    shown = notation.show(group.data[:BYTES_SHOWN])
    left_out = len(group.data) - BYTES_SHOWN
    if left_out > 0:
        shown += f" … and {left_out:,} bytes more"
    return SentFacts(clipped_text(group.label, BYTES_SHOWN * 2), shown)


def _answers(
    verdict: StepVerdict, own: Sequence[Answered], zone: datetime.tzinfo | None
) -> tuple[AnswerFacts, ...]:
    """Return the answers with their times, the one that counts last."""
    times = [clock_time(record.at, zone) for record in own]
    said = [_said(earlier) for earlier in verdict.earlier]
    if verdict.answers or verdict.observer:
        said.append(verdict.verdict)
    if len(times) != len(said):
        times = ["", *times][-len(said) :] if len(said) == 1 else [""] * len(said)
    last = len(said) - 1
    observers = [record.answer.observer for record in own]
    if len(observers) != len(said):
        observers = [verdict.observer] * len(said)
    return tuple(
        AnswerFacts(time, observer, text, number == last)
        for number, (time, observer, text) in enumerate(zip(times, observers, said, strict=True))
    )


def _said(earlier: model.Earlier) -> str:
    told = earlier_words.said(earlier)
    return f"{told} (taken back)" if earlier.is_taken_back else told
