"""The document of `termprobe errata --format json`, as records of which a schema is made."""

from dataclasses import dataclass


@dataclass(frozen=True)
class ErrataBoard:
    """A board, and what has become of it."""

    serial: str
    revision: str
    builder: str
    batch: str
    first: str
    """Its first verdict that decides: pass or fail; incomplete where none does."""
    now: str
    runs: tuple[str, ...]


@dataclass(frozen=True)
class ShareTold:
    """So many of so many, with the 95 % interval of the share."""

    count: int
    of: int
    low_95: float
    high_95: float


@dataclass(frozen=True)
class YieldTold:
    """How many boards of a revision are right."""

    boards: int
    undecided: int
    first_pass: ShareTold
    passing: ShareTold


@dataclass(frozen=True)
class StepFailedTold:
    """A step, and the boards on which it failed."""

    id: str
    failed: tuple[str, ...]


@dataclass(frozen=True)
class GroupTold:
    """What makes a group of boards."""

    factor: str
    """revision, builder or batch."""
    values: tuple[str, ...]


@dataclass(frozen=True)
class FindingTold:
    """What is wrong with boards, and what it goes with."""

    what: str
    title: str
    is_cause: bool
    alike: tuple[str, ...]
    symptom: str
    steps: tuple[str, ...]
    origin: str
    """layout, board, builder, batch or open."""
    p: float | None
    """Of Fisher's exact test, two-sided; null where there is no group to compare."""
    p_corrected: float | None
    """The same for all tests together."""
    goes_with: tuple[GroupTold, ...]
    boards: tuple[str, ...]
    clean: tuple[str, ...]
    revisions: tuple[str, ...]
    wording: str
    settle: str


@dataclass(frozen=True)
class TimeTold:
    """How long it took on average until a cause was named."""

    runs: int
    looks: float
    minutes: float
    unnamed: int


@dataclass(frozen=True)
class UnreadTold:
    """A file that could not be taken for a run."""

    run: str
    why: str


@dataclass(frozen=True)
class LeftOutTold:
    """What does not count."""

    practice: int
    doubles: int
    unread: tuple[UnreadTold, ...]


@dataclass(frozen=True)
class ErrataDocument:
    """All that the text page says; boards, revisions and histories by their names."""

    practice: bool
    from_cards: int
    """Runs that were filled in from cards, whole or in part, of those that count."""
    boards: dict[str, ErrataBoard]
    revisions: dict[str, YieldTold]
    steps: tuple[StepFailedTold, ...]
    findings: tuple[FindingTold, ...]
    tests: int
    histories: dict[str, tuple[str, ...]]
    time_to_cause: TimeTold | None
    left_out: LeftOutTold
