"""How many boards were right at first, and how many are right now. Pure."""

from collections.abc import Iterable
from dataclasses import dataclass

from termprobe.errata.batch import Batch, BoardRuns, natural
from termprobe.errata.statistics import Interval, wilson
from termprobe.verdict.model import FAIL, PASS


@dataclass(frozen=True)
class Share:
    """So many of so many."""

    count: int
    of: int

    @property
    def interval(self) -> Interval:
        """Wilson's 95 % interval of the share."""
        return wilson(self.count, self.of)


@dataclass(frozen=True)
class RevisionYield:
    """Of the boards of one revision."""

    revision: str
    """Empty where it is not told; None of all boards together stands in a record of its own."""
    boards: int
    first_pass: Share
    """Boards whose first run that decides anything passed, of those with such a run."""
    passing: Share
    """Boards that pass by now, of the same."""

    @property
    def undecided(self) -> int:
        """Boards of which no run decides anything: incomplete, or only a part was tried."""
        return self.boards - self.first_pass.of


def first_decided(runs: BoardRuns) -> str:
    """Return the verdict by the first run that decides: pass or fail; empty where none does.

    Whatever failed, or had to be repaired, decides; of what passed only a whole run.
    """
    for run in runs.runs:
        if run.has_failed_once:
            return FAIL
        if run.verdict == PASS and not run.is_part:
            return PASS
    return ""


def by_now(runs: BoardRuns) -> str:
    """Return how the board is by its last run that decides: pass or fail; empty where none does."""
    decided = ""
    for run in runs.runs:
        if run.verdict == FAIL or (run.was_repaired and run.verdict != PASS):
            decided = FAIL
        elif run.verdict == PASS and not run.is_part:
            decided = PASS
    return decided


def yields_of(batch: Batch) -> tuple[RevisionYield, ...]:
    """Return the yield of each revision, in order."""
    of_revision: dict[str, list[BoardRuns]] = {}
    for one in batch.boards:
        of_revision.setdefault(one.board.revision, []).append(one)
    return tuple(
        yield_of(revision, of_revision[revision]) for revision in sorted(of_revision, key=natural)
    )


def yield_of(revision: str, boards: Iterable[BoardRuns]) -> RevisionYield:
    """Return the yield of `boards`."""
    own = list(boards)
    first = [first_decided(one) for one in own]
    now = [by_now(one) for one in own]
    decided = sum(bool(word) for word in first)
    return RevisionYield(
        revision,
        len(own),
        Share(first.count(PASS), decided),
        Share(now.count(PASS), decided),
    )
