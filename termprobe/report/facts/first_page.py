"""The first page: what one would send with a board. Pure."""

import datetime
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from termprobe.report import link_words, scope_words
from termprobe.report.after_words import new_faults_in_words
from termprobe.report.facts.cause_lines import CauseLine, cause_lines
from termprobe.report.facts.claims import Claim, claims
from termprobe.report.facts.numbers import counted
from termprobe.report.facts.stages import not_there, not_tried
from termprobe.report.facts.times import duration_in_words, span_in_words
from termprobe.report.facts.tones import BAD, GOOD, OPEN
from termprobe.report.headline import PASS_WORD, headline_of
from termprobe.report.record import RunReport
from termprobe.verdict import model
from termprobe.verdict.counts import counts

NOT_TOLD = "not told"


class NamedText(NamedTuple):
    """Something with its name, as `Builder` and who that is."""

    name: str
    text: str


@dataclass(frozen=True)
class FirstPage:
    """What a run has shown, and of what board, when, by whom and how."""

    word: str
    """The verdict: PASS, PARTIAL, FAIL, INCOMPLETE or PRACTICE, and what is to be known with it."""
    told: str
    """What follows it, behind a colon."""
    tone: str
    limits: tuple[str, ...]
    """How far that goes, a sentence each."""
    totals: str
    identity: tuple[NamedText, ...]
    claims: tuple[Claim, ...]
    not_tried: tuple[NamedText, ...]
    """(verdict, how many steps and of which stages); then what the script does not try."""
    not_there: str
    """In one line what this terminal does not have; empty for nothing."""
    causes: tuple[CauseLine, ...]
    digest: str
    """SHA-256 of the run file."""


def first_page(report: RunReport, zone: datetime.tzinfo | None = None) -> FirstPage:
    """Return the first page of a run; times are those of `zone`, this computer's by default."""
    line = headline_of(report.board_name, report.plan, report.verdict, report.scope)
    found = counts(report.verdict.steps)
    return FirstPage(
        line.word,
        line.told,
        _tone(line.word),
        tuple(_limits(report)),
        f"{counted(found.all, 'step')}: {', '.join(_own(found.in_words()))}",
        tuple(_identity(report, zone)),
        claims(report),
        tuple(_not_tried(report)),
        not_there(report.plan, report.verdict),
        cause_lines(report),
        report.digest,
    )


def _limits(report: RunReport) -> Iterator[str]:
    """Yield what is to be known beside the headline, new faults first."""
    new = new_faults_in_words(report.changes, report.plan.title_of)
    if new:
        yield new
    yield from scope_words.limits(report.verdict, report.scope, report.not_covered)


def _tone(word: str) -> str:
    if word == PASS_WORD:
        return GOOD
    return BAD if word.startswith("FAIL") else OPEN


def _own(told: tuple[str, ...]) -> tuple[str, ...]:
    """Return the counts of what this terminal has."""
    return tuple(one for one in told if not one.endswith(model.NOT_FITTED))


def _identity(report: RunReport, zone: datetime.tzinfo | None) -> Iterator[NamedText]:
    """Yield board, builder, dates, who answered, links, texts and program."""
    header, plan = report.header, report.plan
    board = header.board
    yield NamedText("Board", board.serial)
    yield NamedText("Revision", board.revision or NOT_TOLD)
    yield NamedText("Builder", board.builder or NOT_TOLD)
    if board.batch:
        yield NamedText("Batch", board.batch)
    if board.fitted:
        yield NamedText("Fitted", board.fitted)
    title = report.profile.title if report.profile else plan.profile_id
    yield NamedText("Terminal", _with_id(title, plan.profile_id))
    script = _with_id(plan.title, plan.script_id)
    yield NamedText("Script", f"{script}, plan {plan.hash[:12]}")
    yield NamedText("Date", span_in_words(header.at, report.ended or header.at, zone))
    duration = duration_in_words(header.at, report.records)
    if duration and report.records and not report.scope.is_from_card:
        yield NamedText("Duration", duration)
    yield NamedText("Answered by", _observers(report))
    for text in link_words.lines(report.links, plan, zone):
        yield NamedText("Link", text)
    options = [f"{option} {position}" for option, position in report.options]
    yield NamedText("Options", ", ".join(options) or "none set")
    if report.changes is not None:
        yield NamedText("After", report.changes.after.run)
    yield NamedText("Run file", report.path)
    if report.digest:
        yield NamedText("SHA-256", report.digest)
    yield NamedText("Program", header.tool)


def _with_id(title: str, id_: str) -> str:
    return title if title == id_ else f"{title} ({id_})"


def _observers(report: RunReport) -> str:
    """Return who or what answered how many steps: `keyboard 137 steps, builder 12 steps`.

    That a step is not fitted is nobody's answer.
    """
    steps = [step for step in report.verdict.steps if step.verdict != model.NOT_FITTED]
    answered = [step.observer or NOT_TOLD for step in steps if step.answers]
    counted_ = Counter(answered).most_common()
    told = [f"{observer} {counted(count, 'step')}" for observer, count in counted_]
    return ", ".join(told) or "nobody yet"


def _not_tried(report: RunReport) -> Iterator[NamedText]:
    """Yield what was not tried: steps by why they were not, then what no step tries."""
    if report.scope.left_out:
        left_out = counted(report.scope.left_out, "step")
        yield NamedText("left out", f"{left_out} of the script are no part of this run")
    for group in not_tried(report):
        yield NamedText(group.verdict, group.in_words())
    skipped = [step for step in report.verdict.steps if step.verdict == model.SKIPPED]
    if skipped:
        titles = "; ".join(step.title for step in skipped)
        yield NamedText(model.SKIPPED, f"{counted(len(skipped), 'step')}: {titles}")
    for text in report.not_covered:
        yield NamedText("", text)
