"""How few looks tell the class of a fault where no answer is wrong and each look is the best one.

The best look is the one whose answers part best what is left. The first is any look that differs,
and is not counted.
"""

import math
from collections import Counter, defaultdict
from statistics import fmean
from typing import NamedTuple

from termprobe.diagnosis.causes import weight_of
from termprobe.diagnosis.picture_outlooks import MOST_PICTURES

from . import stage
from .person import ENOUGH


class Alike(NamedTuple):
    """Faults of which all looks show the same, as far as answers tell."""

    shown: tuple[object, ...]
    """What each look shows, or whether it differs; nothing where all is right."""
    weight: float
    """How common they are."""
    faults: int

    @property
    def showing(self):
        """How many looks differ."""
        return sum(map(bool, self.shown))


RIGHT = ""


class Fewest(NamedTuple):
    """What the best order of looks comes to, on average."""

    looks: float
    """With faults as often as they are thought to be common."""
    bits: float
    """What is left to be told of these behind the first look."""
    looks_of_each: float
    """With each fault once."""


def yes_or_no(left, number):
    """Return those Alike that are `left` by whether the look of this number differs."""
    parts = defaultdict(list)
    for one in left:
        parts[one.shown[number]].append(one)
    return parts


def pictures(left, number):
    """Return the same by whether it is one of the pictures that are offered, or none of them."""
    common = Counter()
    for one in left:
        common[one.shown[number]] += one.weight
    del common[RIGHT]
    offered = {RIGHT, *(picture for picture, _ in common.most_common(MOST_PICTURES))}
    parts = defaultdict(list)
    for one in left:
        picture = one.shown[number]
        parts[picture if picture in offered else "none of them"].append(one)
    return parts


def fewest(answered, seen):
    """Return the Fewest looks by what is `answered`, one of the functions above.

    `seen` makes of a picture what such an answer tells of it.
    """
    told, alike = [], _all_alike(seen)
    for number in range(len(stage.dictionary().looks)):
        for said, left in answered(alike, number).items():
            if said:
                bits = _entropy([one.weight for one in left])
                told += [(one, looks, bits) for one, looks in _looks(left, answered)]
    ones, looks, bits = zip(*told, strict=True)
    by_weight = [one.weight / one.showing for one in ones]
    once = [one.faults / one.showing for one in ones]
    return Fewest(fmean(looks, by_weight), fmean(bits, by_weight), fmean(looks, once))


def _all_alike(seen):
    weights, faults = Counter(), Counter()
    for name in stage.detectable():
        shown = tuple(seen(sight.picture) for sight in stage.dictionary().faults[name].alone)
        weights[shown] += weight_of(name).weight
        faults[shown] += 1
    return [Alike(shown, weight, faults[shown]) for shown, weight in weights.items()]


def _looks(left, answered):
    """Return (one that is left, how many looks tell it from the others)."""
    parts = _best_parts(left, answered)
    if _is_told(left) or len(parts) == 1:
        return [(one, 0) for one in left]
    return [(one, 1 + looks) for part in parts for one, looks in _looks(part, answered)]


def _is_told(left):
    return max(one.weight for one in left) >= ENOUGH * _weight(left)


def _best_parts(left, answered):
    numbers = range(len(left[0].shown))
    ways = [list(answered(left, number).values()) for number in numbers]
    return max(ways, key=lambda parts: _entropy([_weight(part) for part in parts]))


def _weight(part):
    return sum(one.weight for one in part)


def _entropy(weights):
    total = sum(weights)
    return -sum(weight / total * math.log2(weight / total) for weight in weights)
