"""Groups of boards that a cause may go with: a revision, a builder, a batch of parts. Pure."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from termprobe.errata.batch import Batch, BoardSet, natural
from termprobe.errata.items import BatchItem
from termprobe.errata.statistics import Fourfold

REVISION, BUILDER, BATCH = "revision", "builder", "batch"
FEWEST = 2
"""A group of one board tells nothing beyond that board."""


class Label(NamedTuple):
    """What makes a group."""

    factor: str
    """REVISION, BUILDER or BATCH."""
    values: tuple[str, ...]
    """Of the boards inside."""
    others: tuple[str, ...]
    """Of those outside."""


@dataclass(frozen=True)
class BoardGroup:
    """Boards that are parted from others by what they have in common."""

    inside: BoardSet
    """Of those on which the item was tried, and that tell the factor."""
    outside: BoardSet
    labels: tuple[Label, ...]
    """All that these boards have in common and the others have not."""
    table: Fourfold

    @property
    def factors(self) -> frozenset[str]:
        """What the group could stand for."""
        return frozenset(label.factor for label in self.labels)

    @property
    def is_telling(self) -> bool:
        """Whether the item could go with it: it is more frequent inside, and not on one board.

        That all but one builder do something is no finding about a builder; of revisions it is one.
        """
        is_large = self.table.is_more_inside and self.table.inside >= FEWEST
        return is_large and any(map(_could_be_one, self.labels))


class _Values(NamedTuple):
    """A way to part the boards of a batch in two."""

    label: Label
    inside: BoardSet
    outside: BoardSet


class Partings:
    """All ways to part the boards of a batch that are looked at."""

    def __init__(self, batch: Batch) -> None:
        self._values = list(_partings(batch))

    def groups(self, item: BatchItem) -> tuple[BoardGroup, ...]:
        """Return every way to part the boards on which the item was tried, each once.

        Inside is where the item is more frequent. Those of which the others are no group that it
        could go with are among them: they count as tests. Two labels that part these boards in the
        same way are one group.
        """
        found: dict[tuple[BoardSet, BoardSet], list[Label]] = {}
        for label, inside, outside in self._values:
            parted = _tried(item, inside), _tried(item, outside)
            if not all(parted):
                continue
            if not _table(item, *parted).is_more_inside:
                parted = parted[1], parted[0]
                label = Label(label.factor, label.others, label.values)
            found.setdefault(parted, []).append(label)
        return tuple(
            BoardGroup(*parted, _telling(labels), _table(item, *parted))
            for parted, labels in found.items()
        )


def _could_be_one(label: Label) -> bool:
    """Return whether an item could go with a label: with some revisions, or with one builder."""
    return label.factor == REVISION or len(label.values) == 1


def _telling(labels: Sequence[Label]) -> tuple[Label, ...]:
    """Return the labels that an item could go with; all of them where it could go with none."""
    return tuple(filter(_could_be_one, labels)) or tuple(labels)


def _tried(item: BatchItem, boards: BoardSet) -> BoardSet:
    return boards & (item.affected | item.clean)


def _table(item: BatchItem, inside: BoardSet, outside: BoardSet) -> Fourfold:
    return Fourfold(
        (inside & item.affected).bit_count(),
        (inside & item.clean).bit_count(),
        (outside & item.affected).bit_count(),
        (outside & item.clean).bit_count(),
    )


def _partings(batch: Batch) -> Iterator[_Values]:
    for factor in (REVISION, BUILDER, BATCH):
        of_value: dict[str, BoardSet] = {}
        for index, one in enumerate(batch.boards):
            value = getattr(one.board, factor)
            if value:
                of_value[value] = of_value.get(value, 0) | 1 << index
        values = sorted(of_value, key=natural)
        for chosen in _choices(factor, values):
            others = tuple(value for value in values if value not in chosen)
            inside = _union(of_value[value] for value in chosen)
            outside = _union(of_value[value] for value in others)
            yield _Values(Label(factor, chosen, others), inside, outside)


def _union(sets: Iterator[BoardSet]) -> BoardSet:
    union = 0
    for one in sets:
        union |= one
    return union


def _choices(factor: str, values: Sequence[str]) -> Iterator[tuple[str, ...]]:
    """Yield which values are put together against all others, each parting once.

    Each value by itself; of revisions also the first few, which a later one has mended, and with
    them the last few, from which on something is wrong.
    """
    count = len(values)
    seen: set[frozenset[str]] = set()
    choices: list[tuple[str, ...]] = [(value,) for value in values]
    if factor == REVISION:
        choices += [tuple(values[:end]) for end in range(2, count)]
    for chosen in choices:
        others = frozenset(values) - frozenset(chosen)
        if others and others not in seen:
            seen.add(frozenset(chosen))
            yield chosen
