"""What each cause goes with: the layout, a builder, a batch of parts, one board. Pure.

Holm's correction, not Benjamini and Hochberg's: each finding stands alone on a sheet by which
people cut tracks, so the chance of a single wrong one is what is kept small, and not the share of
wrong ones in a long list. And revision, builder and batch hang together, as do the steps of one
cause, in ways that nobody knows; Holm's holds whatever they are.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from termprobe.errata.batch import Batch, BoardSet
from termprobe.errata.groups import BATCH, BUILDER, REVISION, BoardGroup, Partings
from termprobe.errata.items import BatchItem, items_of, own_faults
from termprobe.errata.statistics import ALPHA, can_tell, corrected, fisher, least_p

OF_LAYOUT, ONE_BOARD, OPEN = "layout", "board", "open"
ORIGINS = {REVISION: OF_LAYOUT, BUILDER: BUILDER, BATCH: BATCH}
"""What a group of boards with this in common stands for."""


@dataclass(frozen=True)
class TestedGroup:
    """A group, and how likely it is by chance alone."""

    group: BoardGroup
    p: float
    """Of Fisher's exact test, two-sided."""
    p_corrected: float
    """The same, for how many tests there were in all."""

    @property
    def is_significant(self) -> bool:
        """Whether it is hardly by chance."""
        return self.p_corrected <= ALPHA


@dataclass(frozen=True)
class BatchFinding:
    """An item, and what it goes with."""

    item: BatchItem
    origin: str
    """layout, builder, batch, board or open."""
    best: TestedGroup | None
    """The group that the item goes with best; None where no boards can be compared."""
    peers: BoardSet = 0
    """Of one affected board: those of its revision on which the item was tried and is not."""
    is_everywhere: bool = False
    """Every board on which it was tried has it, and these are several."""

    @property
    def p(self) -> float | None:
        """That of `best`."""
        return None if self.best is None else self.best.p


@dataclass(frozen=True)
class BatchFindings:
    """All that is wrong with boards of a batch."""

    found: tuple[BatchFinding, ...]
    """Those of the layout first, then those of a batch or a builder, open ones, single boards."""
    tests: int
    """How many tests could show anything; each p is corrected for so many."""


def findings_of(batch: Batch) -> BatchFindings:
    """Return the findings on a batch of boards."""
    items = items_of(batch)
    partings = Partings(batch)
    groups = [partings.groups(item) for item in items]
    tables = [group.table for of_item in groups for group in of_item]
    values = iter(corrected(tables))
    found: list[BatchFinding] = []
    for item, of_item in zip(items, groups, strict=True):
        tested = [TestedGroup(one, fisher(one.table), next(values)) for one in of_item]
        telling = [one for one in tested if one.group.is_telling]
        found.append(_finding(item, telling, batch))
    tests = sum(can_tell([least_p(table) for table in tables]))
    found += _of_own_faults(items, partings, batch)
    return BatchFindings(tuple(sorted(found, key=_rank)), tests)


def _of_own_faults(
    items: Sequence[BatchItem], partings: Partings, batch: Batch
) -> Iterator[BatchFinding]:
    """Yield that faults of single boards go with a builder or a batch of parts, where they do.

    It is another question than what belongs to the layout, so its tests are corrected for by
    themselves.
    """
    item = own_faults(items, batch)
    if item is None:
        return
    groups = [one for one in partings.groups(item) if REVISION not in one.factors]
    values = corrected([one.table for one in groups])
    tested = [
        TestedGroup(one, fisher(one.table), value)
        for one, value in zip(groups, values, strict=True)
        if one.is_telling
    ]
    finding = _finding(item, tested, batch)
    if finding.best is not None and finding.best.is_significant:
        yield finding


def _rank(finding: BatchFinding) -> tuple[int, int, str]:
    order = (OF_LAYOUT, BATCH, BUILDER, OPEN, ONE_BOARD)
    item = finding.item
    return order.index(finding.origin), -item.affected.bit_count(), item.what


def _finding(item: BatchItem, tested: Sequence[TestedGroup], batch: Batch) -> BatchFinding:
    best = min(tested, key=lambda one: (one.p, one.group.inside.bit_count()), default=None)
    count = item.affected.bit_count()
    if best is not None and best.is_significant and count >= 2:
        factors = best.group.factors
        origin = OPEN
        if len(factors) == 1:
            origin = ORIGINS[next(iter(factors))]
        return BatchFinding(item, origin, best)
    if count == 1:
        peers = _peers(item, batch)
        return BatchFinding(item, ONE_BOARD if peers else OPEN, best, peers)
    return BatchFinding(item, OPEN, best, is_everywhere=not item.clean)


def _peers(item: BatchItem, batch: Batch) -> BoardSet:
    """Return the boards of the same revision as the one affected that do not have the item."""
    revisions = [one.board.revision for one in batch.boards]
    own = revisions[item.affected.bit_length() - 1]
    peers = 0
    for index, revision in enumerate(revisions):
        if revision == own:
            peers |= 1 << index
    return peers & item.clean
