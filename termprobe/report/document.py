"""The document of `report --format json` and `run --json`, as records of which a schema is made.

A name that ends in an underscore loses it in the document. What is `left out` is not there where it
is None.
"""

from dataclasses import dataclass, field

from termprobe.report.facts.claims import Claim
from termprobe.report.facts.notes import PhotoFacts
from termprobe.report.facts.sheet import Sheet

UNLESS_NONE = "unless none"
"""In the metadata of a field: it is not in the document where it is None."""
_UNLESS_KNOWN = {UNLESS_NONE: True}


@dataclass(frozen=True)
class CountsTold:
    """How many steps are counted, were answered, and were left out of the run."""

    steps: int
    done: int
    covered: int
    not_fitted: int
    left_out: int


@dataclass(frozen=True)
class StepTold:
    """A step of `run --json`."""

    id: str
    stage: str
    verdict: str
    differs: tuple[tuple[int, int, str, str], ...]
    """Row, column, character expected, character seen."""


@dataclass(frozen=True)
class DifferingTold:
    """How many cells differ, and whether all of them are known or those that were marked."""

    cells: int
    how: str
    misdrawn: dict[str, str] | None = field(default=None, metadata=_UNLESS_KNOWN)


@dataclass(frozen=True)
class EarlierTold:
    """An answer that does not count any more."""

    verdict: str
    reason: str
    taken_back: bool


@dataclass(frozen=True)
class StepReported(StepTold):
    """A step of `report --format json`."""

    title: str
    reason: str
    evidence: tuple[str, ...]
    observer: str
    not_seen: tuple[str, ...]
    answers: int
    differing: DifferingTold | None
    earlier: tuple[EarlierTold, ...]


@dataclass(frozen=True)
class TextTold:
    """A text of profile and script, and the steps that are judged by it."""

    since: str
    changed: tuple[str, ...]
    plan: str
    judged: tuple[str, ...]


@dataclass(frozen=True)
class EarlierAnswerTold:
    """An answer that counts no more since its step changed."""

    id: str
    text: int
    verdict: str
    reason: str
    now: str | None


@dataclass(frozen=True)
class TextsTold:
    """All texts of a run, and the answers that count no more since steps changed."""

    used: tuple[TextTold, ...]
    earlier_answers: tuple[EarlierAnswerTold, ...]


@dataclass(frozen=True)
class ChangesTold:
    """What has changed since the run before."""

    run: str
    digest: str
    begun: str
    blocks: tuple[str, ...]
    failed_then_pass_now: tuple[str, ...]
    failed_then_fail_now: tuple[str, ...]
    passed_then_fail_now: tuple[str, ...]
    unknown_then_fail_now: tuple[str, ...]
    failed_then_not_proven_now: tuple[str, ...]
    passed_then_not_proven_now: int


@dataclass(frozen=True)
class AttentionTold:
    """How the attention checks of a run went."""

    rate: float
    seed: int
    caught: tuple[str, ...]
    missed: tuple[str, ...]
    undecided: tuple[str, ...]
    is_measured: bool


@dataclass(frozen=True)
class BoardTold:
    """The board, as its builder names it."""

    serial: str
    revision: str
    builder: str
    fitted: str
    batch: str


@dataclass(frozen=True)
class LinkTold:
    """A link over which the run went."""

    name: str
    format: str
    note: str


@dataclass(frozen=True)
class LinkSpanTold(LinkTold):
    """A link with the time in which it was in use."""

    start: str
    end: str
    practice: bool
    steps: tuple[str, ...]


@dataclass(frozen=True)
class NoteTold:
    """What was noted while the run went on."""

    step: str | None
    time: str
    text: str
    photo: PhotoFacts | None = field(default=None, metadata=_UNLESS_KNOWN)


@dataclass(frozen=True)
class KnownFaultTold:
    """A fault with which the run went on."""

    fault: str
    class_: tuple[str, ...]
    title: str
    explains: tuple[str, ...]


@dataclass(frozen=True)
class SuspectTold:
    """What would explain the run."""

    class_: tuple[str, ...]
    title: str
    block: str
    probability: float


@dataclass(frozen=True)
class CauseTold:
    """One fault, and the steps that failed just as it predicts."""

    fault: str
    title: str
    steps: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class AnyRun:
    """What both documents tell of a run."""

    board: str
    verdict: str
    """pass, fail or incomplete."""
    kind: str
    """whole or part."""
    practice: bool
    headline: str
    counts: CountsTold
    disputed: tuple[str, ...]
    not_covered: tuple[str, ...]
    run: str
    card: bool | None = field(default=None, metadata=_UNLESS_KNOWN)
    """true where it was filled in from a card."""
    texts: TextsTold | None = field(default=None, metadata=_UNLESS_KNOWN)
    after: ChangesTold | None = field(default=None, metadata=_UNLESS_KNOWN)
    attention: AttentionTold | None = field(default=None, metadata=_UNLESS_KNOWN)


@dataclass(frozen=True, kw_only=True)
class RunDocument(AnyRun):
    """The document of `run --json`."""

    steps: tuple[StepTold, ...]


@dataclass(frozen=True, kw_only=True)
class ReportDocument(AnyRun):
    """The document of `report --format json`; of several runs it is a list of them."""

    steps: tuple[StepReported, ...]
    about: BoardTold
    profile: str
    script: str
    plan: str
    link: LinkTold | None
    links: tuple[LinkSpanTold, ...]
    options: dict[str, str]
    tool: str
    started: str
    ended: str
    totals: dict[str, int]
    damages: tuple[str, ...]
    remarks: tuple[str, ...]
    notes: tuple[NoteTold, ...]
    known_faults: tuple[KnownFaultTold, ...]
    suspects: tuple[SuspectTold, ...]
    causes: tuple[CauseTold, ...]
    claims: tuple[Claim, ...]
    digest: str
    """SHA-256 of the run file."""
    facts: Sheet
    """All from which the other formats are laid out."""
