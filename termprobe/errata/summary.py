"""One run in short: all that is known of it when many boards are compared. Pure."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, NamedTuple

from termprobe.errata.time_to_cause import TimeToCause, time_to_cause
from termprobe.journal.card import is_from_card
from termprobe.journal.comes_after import ComesAfter
from termprobe.journal.known_fault import FaultNamed, ToRepair
from termprobe.journal.records import Header, Linked, Record
from termprobe.link.base import is_simulated
from termprobe.plan.model import KeyPress, Plan, Reply, ScreenStep
from termprobe.report import words
from termprobe.verdict.model import FAIL, PASS, RunVerdict, StepVerdict, is_leaning

if TYPE_CHECKING:
    from termprobe.diagnosis.model import Diagnosis

MOST_SYMPTOM = 200
"""A symptom longer than so many characters is cut."""
DIAGNOSED = ScreenStep | Reply | KeyPress
"""What a fault can explain; readings, answers and checks of the line stand for themselves."""


class FailedStep(NamedTuple):
    """A step that failed, and what was seen."""

    id: str
    title: str
    symptom: str


class BoardCause(NamedTuple):
    """What would explain that steps failed."""

    faults: tuple[str, ...]
    """The likeliest first; nothing in the run tells the others from it."""
    title: str
    block: str
    steps: tuple[str, ...]
    """Ids of the steps that failed by it."""


@dataclass(frozen=True)
class RunSummary:
    """One run of one board."""

    path: str
    digest: str
    """SHA-256 of the run file, in hexadecimal."""
    serial: str
    revision: str
    builder: str
    batch: str
    begun: str
    """ISO 8601."""
    verdict: str
    is_part: bool
    """Only a part of the script was to be tried."""
    is_practice: bool
    """The board was a simulated one."""
    passed: tuple[str, ...] = ()
    """Ids of the steps that passed by answers of their own, or since others covered them."""
    failed: tuple[FailedStep, ...] = ()
    """Those that failed, those that were repaired within the run included."""
    causes: tuple[BoardCause, ...] = ()
    time: TimeToCause | None = None
    """How long it took to find out; None where nothing failed that is diagnosed."""
    was_repaired: bool = False
    """It stopped for a repair, and what it shows later is no first pass."""
    after: str = ""
    """The name of the run file that it comes after."""
    damages: int = 0
    """How many places of the run file cannot be read."""
    script: str = ""
    """Id of the script, as it was last."""
    is_from_card: bool = False
    """It, or a part of it, was filled in from a card."""

    @property
    def has_failed_once(self) -> bool:
        """Whether it shows that the board as it came was not right."""
        return self.verdict == FAIL or self.was_repaired

    @property
    def unexplained(self) -> tuple[FailedStep, ...]:
        """The steps that failed and that no cause explains."""
        explained = {step for cause in self.causes for step in cause.steps}
        return tuple(step for step in self.failed if step.id not in explained)


@dataclass(frozen=True)
class UnreadRun:
    """A file that cannot be taken for a run."""

    path: str
    why: str


@dataclass(frozen=True)
class RunFacts:
    """A run file as it was read back and judged."""

    path: str
    digest: str
    header: Header
    records: Sequence[Record]
    plan: Plan
    verdict: RunVerdict
    left_out: int = 0
    """How many steps of the script that this board has were not to be tried."""
    damages: tuple[str, ...] = field(default=())


def needs_diagnosis(facts: RunFacts) -> bool:
    """Return whether steps failed that no fault named in the run explains."""
    named = {step for cause in _named(facts.records) for step in cause.steps}
    return any(step.id not in named for step in _diagnosed(facts))


def summary_of(facts: RunFacts, diagnosis: "Diagnosis | None" = None) -> RunSummary:
    """Return the RunSummary of a run; `diagnosis` is wanted where needs_diagnosis() says so."""
    board, records = facts.header.board, facts.records
    after = next((record.run for record in records if isinstance(record, ComesAfter)), "")
    failed = [_failed(step) for step in facts.verdict.steps if _has_failed(step)]
    failed += _mended(facts)
    return RunSummary(
        facts.path,
        facts.digest,
        board.serial,
        board.revision,
        board.builder,
        board.batch,
        facts.header.at,
        facts.verdict.verdict,
        facts.left_out > 0,
        _is_practice(facts),
        _passed(facts.verdict.steps),
        tuple(failed),
        tuple(_causes(facts, diagnosis)),
        time_to_cause(facts.plan, records, {step.id for step in failed}),
        any(isinstance(record, ToRepair) for record in records),
        after,
        len(facts.damages),
        facts.plan.script_id,
        is_from_card(records),
    )


def _is_practice(facts: RunFacts) -> bool:
    """Return whether any board that was tried in the run was a simulated one."""
    links = [facts.header.link, *(one.link for one in facts.records if isinstance(one, Linked))]
    names = [link.name for link in links if link is not None]
    return facts.header.practice is not None or any(map(is_simulated, names))


def _has_failed(step: StepVerdict) -> bool:
    return step.verdict == FAIL


def _passed(steps: Iterable[StepVerdict]) -> tuple[str, ...]:
    """Return the ids of the steps that show what a good board shows."""
    return tuple(
        step.id for step in steps if step.verdict == PASS and (step.answers or is_leaning(step))
    )


def _failed(step: StepVerdict) -> FailedStep:
    told = [*words.evidence(step), words.reason(step)]
    symptom = next(filter(None, told), "")
    if len(symptom) > MOST_SYMPTOM:
        symptom = symptom[: MOST_SYMPTOM - 3] + "..."
    return FailedStep(step.id, step.title, symptom)


def _mended(facts: RunFacts) -> Iterator[FailedStep]:
    """Yield the steps that failed by what was repaired within the run, and fail no more."""
    known = facts.plan.index
    failing = {step.id for step in facts.verdict.steps if _has_failed(step)}
    for record in facts.records:
        if isinstance(record, ToRepair):
            for step in record.explains:
                if step in known and step not in failing:
                    failing.add(step)
                    yield FailedStep(step, facts.plan.title_of(step), record.title)


def _diagnosed(facts: RunFacts) -> list[StepVerdict]:
    """Return the failed steps that a fault could explain."""
    plan = facts.plan
    failed = [step for step in facts.verdict.steps if _has_failed(step)]
    return [step for step in failed if isinstance(plan.step(step.id), DIAGNOSED)]


def _causes(facts: RunFacts, diagnosis: "Diagnosis | None") -> Iterator[BoardCause]:
    """Yield the faults that were named in the run, then what would explain the rest of it."""
    named = list(_named(facts.records))
    yield from named
    if diagnosis is None:
        return
    known = {fault for cause in named for fault in cause.faults}
    explained = {step for cause in named for step in cause.steps}
    left = tuple(step.id for step in _diagnosed(facts) if step.id not in explained)
    if diagnosis.is_explained and diagnosis.suspects:
        first = diagnosis.suspects[0]
        if not known & set(first.faults):
            yield BoardCause(first.faults, first.title, first.block, left)
        return
    for pair in diagnosis.pairs[:1]:
        if pair.is_explained:
            for fault, title, block in zip(pair.faults, pair.titles, pair.blocks, strict=True):
                if fault not in known:
                    yield BoardCause((fault,), title, block, left)


def _named(records: Iterable[Record]) -> Iterator[BoardCause]:
    """Yield each fault that was named in the run, once."""
    found: dict[str, BoardCause] = {}
    for record in records:
        if isinstance(record, FaultNamed):
            before = found.get(record.fault)
            steps = dict.fromkeys(record.explains)
            if before is not None:
                steps = dict.fromkeys((*before.steps, *record.explains))
            faults = (record.fault, *record.alike)
            title = record.title or record.fault
            found[record.fault] = BoardCause(faults, title, _block(record.fault), tuple(steps))
    yield from found.values()


def _block(fault: str) -> str:
    """Return the block of a fault by its name."""
    return fault.partition("/")[0]
