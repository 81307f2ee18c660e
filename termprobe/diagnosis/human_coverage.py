"""What a builder who misses some differences sees of the faults that a plan shows."""

from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from termprobe.diagnosis.showing import FaultShown
from termprobe.diagnosis.visibility import CLASSES, Visibility, chance_seen, most_visible

TWICE = 2


@dataclass(frozen=True)
class HumanCoverage:
    """What the eyes of a builder get of the faults that have a part in the display."""

    share: float
    """How many of those that can be shown the builder is expected to find: from 0 to 1."""
    by_visibility: Mapping[str, int]
    """Name of each class: of how many faults the look that shows them best is of it."""
    twice: int
    """So many faults are shown by at least two of the looks that are asked."""


def human_coverage(
    faults: Sequence[FaultShown], asked: Collection[int], miss: Mapping[str, float]
) -> HumanCoverage:
    """Return the HumanCoverage of `faults`, of which each can be shown.

    `asked` holds the numbers of the looks that are asked on a good board, `miss` for the name of
    each class how probable it is that a difference of it is missed. What presses show the line
    hears, and no eye is needed.
    """
    seen = [_looks_asked(fault, asked) for fault in faults]
    chances = [_chance(fault, looks, miss) for fault, looks in zip(faults, seen, strict=True)]
    best = Counter(most_visible(looks).name for looks in seen if looks)
    return HumanCoverage(
        share=sum(chances) / max(len(chances), 1),
        by_visibility={each.name: best[each.name] for each in CLASSES},
        twice=sum(len(looks) >= TWICE for looks in seen),
    )


def _looks_asked(fault: FaultShown, asked: Collection[int]) -> list[Visibility]:
    return [seen for number, seen in fault.looks.items() if number in asked]


def _chance(fault: FaultShown, looks: Sequence[Visibility], miss: Mapping[str, float]) -> float:
    if fault.presses is not None:
        return 1.0
    return chance_seen(looks, miss)
