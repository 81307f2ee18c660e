"""Two runs side by side: what has changed from the first to the second, step by step. Pure."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from termprobe.journal.records import Answered
from termprobe.plan.model import Step, expected_of
from termprobe.report.facts.notes import NoteFacts, all_notes
from termprobe.report.facts.pictures import CellRun, RowTexts, ScreenFacts, fitted
from termprobe.report.record import RunReport
from termprobe.terminal.screen import UNKNOWN_CHARACTER
from termprobe.verdict.given import given
from termprobe.verdict.model import FAIL, NOT_FITTED, PASS, StepVerdict

MENDED, NEW, OTHERWISE, AS_BEFORE = "mended", "new", "fails otherwise", "fails as before"
CHANGED, ANOTHER, ONLY_FIRST, ONLY_SECOND = "changed", "another step", "only first", "only second"
WHAT_BECAME = {
    NEW: "Passed in the first, FAILS in the second",
    OTHERWISE: "Fail in both, and show something else",
    AS_BEFORE: "Fail in both, alike as far as is known",
    MENDED: "Failed in the first, pass in the second",
    CHANGED: "Have another verdict",
    ANOTHER: "Are not asked in the same way, so that they cannot be compared",
    ONLY_FIRST: "Are in the first run only",
    ONLY_SECOND: "Are in the second run only",
}
"""What may have become of a step, the most important first."""


class FieldCompared(NamedTuple):
    """Something about the runs that is not the same."""

    name: str
    first: str
    second: str


@dataclass(frozen=True)
class StepCompared:
    """A step of which something is not the same, or that fails in both runs."""

    id: str
    title: str
    became: str
    """A key of WHAT_BECAME."""
    first: str
    """Its verdict in the first run; empty where that has it not."""
    second: str
    screen: ScreenFacts | None = None
    """As `expected` what the first run showed, as `seen` what the second did, where both are known
    and differ."""


@dataclass(frozen=True)
class PhotosCompared:
    """What was noted with a photo at one step, in either run."""

    step: str
    """The step's title; empty where it was noted at none."""
    first: tuple[NoteFacts, ...]
    second: tuple[NoteFacts, ...]


@dataclass(frozen=True)
class RunComparison:
    """What has changed."""

    first: str
    """The path of the run file."""
    second: str
    fields: tuple[FieldCompared, ...]
    steps: tuple[StepCompared, ...]
    """In the order of the plan."""
    same: int
    """How many steps have the same verdict in both, other than fail."""
    photos: tuple[PhotosCompared, ...] = ()

    @property
    def is_worse(self) -> bool:
        """Whether anything fails that had passed."""
        return any(step.became == NEW for step in self.steps)

    def of(self, became: str) -> tuple[StepCompared, ...]:
        """Return the steps of which that became."""
        return tuple(step for step in self.steps if step.became == became)


class _Run:
    """A run, by step."""

    def __init__(self, report: RunReport) -> None:
        self.report, self.plan = report, report.plan
        fitted_steps = [one for one in report.verdict.steps if one.verdict != NOT_FITTED]
        self.verdicts = {one.id: one for one in fitted_steps}
        self._answers = given(report.plan, report.records).answers

    def shown(self, step: Step) -> tuple[RowTexts, tuple[int, int] | None] | None:
        """Return rows and cursor of what was seen in a step; None where that is not known."""
        verdict, expected = self.verdicts[step.id], expected_of(step)
        answered = self._last(step.id)
        if expected is None or verdict.verdict not in (PASS, FAIL):
            return None
        rows, cursor = expected.rows, expected.cursor
        if answered is not None and answered.against is not None:
            rows, cursor = answered.against.rows, answered.against.cursor
        if answered is not None and answered.answer.seen is not None:
            rows, cursor = answered.answer.seen, answered.answer.cursor or cursor
        elif verdict.verdict == FAIL:
            return None
        return fitted(rows, self.plan.rows, self.plan.columns), cursor

    def _last(self, step: str) -> Answered | None:
        found = self._answers[step].given
        return found[-1] if found else None


def compared(first: RunReport, second: RunReport) -> RunComparison:
    """Return what has changed from the first run to the second."""
    runs = _Run(first), _Run(second)
    known = [*runs[1].verdicts.values(), *runs[0].verdicts.values()]
    ids = dict.fromkeys(one.id for one in known)
    steps = [found for step in ids if (found := _step(step, *runs)) is not None]
    return RunComparison(
        first.path,
        second.path,
        tuple(_fields(first, second)),
        tuple(steps),
        len(ids) - len(steps),
        tuple(_photos(first, second)),
    )


def _photos(first: RunReport, second: RunReport) -> Iterator[PhotosCompared]:
    """Yield what was noted with a photo, step by step; those of the first run come first."""
    of_first, of_second = _with_photo(first), _with_photo(second)
    for step in dict.fromkeys(note.step for note in (*of_first, *of_second)):
        yield PhotosCompared(step, _noted_at(step, of_first), _noted_at(step, of_second))


def _with_photo(report: RunReport) -> list[NoteFacts]:
    return [note for note in all_notes(report, None) if note.photo is not None]


def _noted_at(step: str, notes: Sequence[NoteFacts]) -> tuple[NoteFacts, ...]:
    return tuple(note for note in notes if note.step == step)


def _fields(first: RunReport, second: RunReport) -> Iterator[FieldCompared]:
    for old, new in zip(_told(first), _told(second), strict=True):
        (name, before), (_, now) = old, new
        if before != now:
            yield FieldCompared(name, before or "not told", now or "not told")


def _told(report: RunReport) -> Iterator[tuple[str, str]]:
    """Yield (name, text) of what could make two runs differ."""
    header = report.header
    board, link = header.board, header.link
    yield "Board", board.serial
    yield "Revision", board.revision
    yield "Builder", board.builder
    yield "Batch", board.batch
    yield "Fitted", board.fitted
    yield "Begun", header.at
    yield "Link", f"{link.name} {link.format}" if link else ""
    yield "Profile", report.plan.profile_id
    yield "Script", report.plan.script_id
    yield "Plan", report.plan.hash[:12]
    yield "Options", ", ".join(f"{option} {position}" for option, position in report.options)
    yield "Program", header.tool
    yield "Verdict", report.verdict.verdict


def _step(step: str, first: _Run, second: _Run) -> StepCompared | None:
    """Return what became of a step; None where it has the same verdict, and that is not fail."""
    old, new = first.verdicts.get(step), second.verdicts.get(step)
    if old is None or new is None:
        return _in_one(old, new)
    steps = first.plan.step(step), second.plan.step(step)
    if steps[0].hash != steps[1].hash:
        return StepCompared(step, new.title, ANOTHER, old.verdict, new.verdict)
    if old.verdict == new.verdict != FAIL:
        return None
    screen = _screen(first.shown(steps[0]), second.shown(steps[1]), second.plan.columns)
    became = _became(old.verdict, new.verdict, screen)
    return StepCompared(step, new.title, became, old.verdict, new.verdict, screen)


def _in_one(old: StepVerdict | None, new: StepVerdict | None) -> StepCompared | None:
    if new is not None:
        return StepCompared(new.id, new.title, ONLY_SECOND, "", new.verdict)
    if old is not None:
        return StepCompared(old.id, old.title, ONLY_FIRST, old.verdict, "")
    return None


def _became(old: str, new: str, screen: ScreenFacts | None) -> str:
    match old, new:
        case "fail", "pass":
            return MENDED
        case "pass", "fail":
            return NEW
        case "fail", "fail":
            return AS_BEFORE if screen is None else OTHERWISE
    return CHANGED


def _screen(
    first: tuple[RowTexts, tuple[int, int] | None] | None,
    second: tuple[RowTexts, tuple[int, int] | None] | None,
    columns: int,
) -> ScreenFacts | None:
    """Return both screens, where both are known and are not the same."""
    if first is None or second is None or first == second:
        return None
    stretches = list(_differing(first[0], second[0]))
    rows = [_without_marks(own) for own in (first[0], second[0])]
    return ScreenFacts(columns, rows[0], first[1], rows[1], second[1], tuple(stretches))


def _without_marks(rows: RowTexts) -> RowTexts:
    """Return the rows with blanks in cells of which only is known that they differ."""
    return tuple(row.replace(UNKNOWN_CHARACTER, " ") for row in rows)


def _differing(first: RowTexts, second: RowTexts) -> Iterator[CellRun]:
    """Yield the cells that are not the same, those side by side as one."""
    for row, (old, new) in enumerate(zip(first, second, strict=False)):
        start = None
        for column in range(len(old) + 1):
            is_other = column < len(old) and old[column] != new[column]
            if is_other and start is None:
                start = column
            elif not is_other and start is not None:
                yield CellRun(row, start, column - start)
                start = None
