"""How easily a difference is seen, and how many differences a builder who misses some would see.

Each look is taken as a chance of its own: who misses a fault at one look sees it at the next as
easily as anybody.
"""

from collections.abc import Iterable, Mapping
from math import prod
from typing import NamedTuple

from termprobe.diagnosis.shown import Sight


class Visibility(NamedTuple):
    """One class of differences."""

    name: str
    what: str
    """Which differences are of it, in words."""
    miss: float
    """How many of them a builder misses, from 0 to 1."""
    source: str
    """Of that rate."""


WHOLE_SCREEN = 1 / 4
"""So great a share of all cells counts as the whole screen."""
SCREEN, LINE, CELLS, DOTS, CURSOR, SOUND = CLASSES = (
    Visibility(
        "screen",
        "a quarter of all cells, or more",
        0.05,
        "own estimate: less than half of a line's",
    ),
    Visibility(
        "line",
        "fewer, but at least as many as a column has",
        0.11,
        "proofreading against a copy that lies beside: 10.7 % of wrong characters go unseen",
    ),
    Visibility(
        "cells",
        "fewer than that",
        0.23,
        "inspection of chips by eye: 23 % of the flaws go unseen",
    ),
    Visibility(
        "dots",
        "dots of the right characters, or the cursor's",
        0.23,
        "own estimate: as of few cells",
    ),
    Visibility("cursor", "the cursor alone", 0.23, "own estimate: as of few cells"),
    Visibility("sound", "the bell alone", 0.3, "own estimate: nobody is asked to listen"),
)
"""The most visible first."""
USUAL_MISS = {each.name: each.miss for each in CLASSES}


def class_of(shown: Sight, rows: int, columns: int) -> Visibility:
    """Return the class of what `shown` differs in, on a screen of so many `rows` and `columns`.

    Something must differ.
    """
    if shown.cells >= WHOLE_SCREEN * rows * columns:
        return SCREEN
    if shown.cells >= rows:
        return LINE
    if shown.cells:
        return CELLS
    if shown.dots:
        return DOTS
    if shown.cursor:
        return CURSOR
    return SOUND


def less_visible(first: Visibility, second: Visibility) -> Visibility:
    """Return the one of two classes that is missed more easily."""
    return max(first, second, key=CLASSES.index)


def most_visible(classes: Iterable[Visibility]) -> Visibility:
    """Return the first of some classes, one at least, by visibility."""
    return min(classes, key=CLASSES.index)


def chance_seen(looks: Iterable[Visibility], miss: Mapping[str, float]) -> float:
    """Return how probable it is that at least one of the differences at `looks` is seen.

    `miss` holds for the name of each class how probable it is that one is missed. Of no look it is
    0.
    """
    return 1 - prod(miss[look.name] for look in looks)
