"""What a plan proves of a board, as one document."""

from collections.abc import Mapping
from typing import NamedTuple

from termprobe.diagnosis.coverage import Coverage, PartCoverage
from termprobe.diagnosis.visibility import CLASSES, Visibility
from termprobe.plan.effort import MS, Effort
from termprobe.plan.model import Plan


class CoverageTold(NamedTuple):
    """What is told of the coverage by a plan."""

    found: Coverage
    plan: Plan
    effort: Effort
    """On a good board."""
    seconds: float
    """What the plan takes of the builder then: sending, looking, pressing keys."""
    miss: Mapping[str, float]
    """Name of each class of differences: how many of them the builder misses, from 0 to 1."""
    weigh: str
    """`steps` or `seconds`: by what the smallest set is the smallest."""


def coverage_document(told: CoverageTold) -> dict[str, object]:
    """Return what is told as plain data."""
    found, smallest = told.found, told.found.smallest
    reasons = found.undetectable.items()
    return {
        "faults": found.faults,
        "undetectable": [{"fault": fault, "why": why} for fault, why in reasons],
        "detected": len(found.detected),
        "missed": list(found.missed),
        "looks": told.effort.looks,
        "presses": told.effort.presses,
        "classes": found.classes,
        "by_block": {block: _part(part) for block, part in found.by_block.items()},
        "by_part": {
            "display": _part(found.display),
            "dots": _part(found.dots),
            "keyboard-and-line": _part(found.beside),
        },
        "by_visibility": _by_visibility(told),
        "human_adjusted": round(found.human.share, 4),
        "seen_twice": found.human.twice,
        "shows_all_cell_bits": found.shows_all_bits,
        "shows_all_dots": found.shows_all_dots,
        "seconds_of_builder": round(told.seconds, 1),
        "smallest_set": list(smallest.steps),
        "smallest_by": told.weigh,
        "smallest_cost": _cost(smallest.cost, told.weigh),
        "smallest_bound": _cost(smallest.lower_bound, told.weigh),
    }


def _part(part: PartCoverage) -> dict[str, int]:
    return {
        "faults": part.faults,
        "detected": part.detected,
        "undetectable": part.undetectable,
        "missed": part.missed,
    }


def _by_visibility(told: CoverageTold) -> dict[str, dict[str, object]]:
    counts = told.found.human.by_visibility
    return {
        each.name: {
            "faults": counts[each.name],
            "what": each.what,
            "miss": told.miss[each.name],
            "source": source_of(each, told.miss),
        }
        for each in CLASSES
    }


def source_of(each: Visibility, miss: Mapping[str, float]) -> str:
    """Return where the rate of a class comes from, in words."""
    if miss[each.name] != each.miss:
        return "as given"
    return each.source


def _cost(cost: int, weigh: str) -> float:
    """Return a cost in steps or in seconds, of milliseconds."""
    if weigh == "seconds":
        return round(cost / MS, 1)
    return cost
