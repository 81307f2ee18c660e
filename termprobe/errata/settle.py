"""Which boards would have to be tried to settle what a cause goes with. Pure."""

from collections.abc import Iterator
from typing import NamedTuple

from termprobe.errata.groups import BUILDER, REVISION, BoardGroup, Label
from termprobe.errata.statistics import ALPHA, Fourfold, fisher

MOST_MORE = 40
"""More boards than these are not worth waiting for."""


class MoreBoards(NamedTuple):
    """Boards to try besides: those of the group that show it, and others that do not."""

    inside: int
    outside: int


def more_boards(table: Fourfold, tests: int) -> MoreBoards | None:
    """Return the fewest boards that make the group significant, should they speak for it.

    `tests` is for how many p is corrected. None where they would be more than MOST_MORE.
    """
    wanted = ALPHA / max(tests, 1)
    for more in range(1, MOST_MORE + 1):
        for inside in range(more, -1, -1):
            grown = table._replace(
                inside_with=table.inside_with + inside,
                outside_without=table.outside_without + more - inside,
            )
            if fisher(grown) <= wanted:
                return MoreBoards(inside, more - inside)
    return None


def label_in_words(label: Label) -> str:
    """Return `revision A`, `revisions A and B`, `builder Ada`, `batch 3`."""
    return _in_words(label.factor, label.values)


def others_in_words(label: Label) -> str:
    """Return the same of the boards outside."""
    return _in_words(label.factor, label.others)


def group_in_words(group: BoardGroup) -> str:
    """Return what the boards of a group have in common."""
    return ", which is also ".join(label_in_words(label) for label in group.labels)


def apart(group: BoardGroup) -> str:
    """Return which board would tell apart what the boards of a group have in common."""
    return "; or ".join(_apart(group))


def _apart(group: BoardGroup) -> Iterator[str]:
    for label in group.labels:
        for other in group.labels:
            if other.factor != label.factor:
                yield f"a board of {label_in_words(label)} that is not of {label_in_words(other)}"
                break


def _in_words(factor: str, values: tuple[str, ...]) -> str:
    if len(values) == 1:
        return f"{factor} {values[0]}"
    several = {REVISION: "revisions", BUILDER: "builders"}.get(factor, "batches")
    *most, last = values or ("",)
    return f"{several} {', '.join(most)} and {last}"
