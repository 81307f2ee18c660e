"""Which presses would decide best between the leading suspects: those expected to tell most."""

import math
from collections.abc import Collection, Iterable, Sequence
from typing import NamedTuple

from termprobe.diagnosis.key_hypothesis import Hypothesis
from termprobe.diagnosis.key_outcomes import Predicted
from termprobe.diagnosis.key_ranking import Ranked

NAMED = 3
"""So many presses are named at most."""
LEAST_BITS = 0.01
"""A press that is expected to tell less is not worth making."""


class _Weighed(NamedTuple):
    probability: float
    hypothesis: Hypothesis


Alike = Sequence[_Weighed]
"""Hypotheses that the presses chosen so far would leave together."""


def next_presses(leading: Sequence[Ranked], candidates: Iterable[str]) -> tuple[str, ...]:
    """Return the ids of up to three of the presses `candidates`, the one that tells most first.

    Each is chosen for what it tells beyond those before it.
    """
    groups: list[Alike] = [_weighed(leading)]
    left = list(candidates)
    chosen: list[str] = []
    while left and len(chosen) < NAMED:
        gains = {press: _gain_bits(groups, press) for press in left}
        best = max(left, key=gains.__getitem__)
        if gains[best] < LEAST_BITS:
            break
        chosen.append(best)
        left.remove(best)
        groups = [part for group in groups for part in _parts(group, best)]
    return tuple(chosen)


def _weighed(leading: Sequence[Ranked]) -> Alike:
    """Return the hypotheses of all classes; those of one class share its probability evenly."""
    return [
        _Weighed(one.probability / len(one.members), member)
        for one in leading
        for member in one.members
    ]


def _parts(group: Alike, press: str) -> Collection[Alike]:
    """Return the groups into which `press` would part this one."""
    parts: dict[Predicted, list[_Weighed]] = {}
    for one in group:
        parts.setdefault(one.hypothesis.sends[press], []).append(one)
    return list(parts.values())


def _gain_bits(groups: Sequence[Alike], press: str) -> float:
    """Return the entropy by which `press` would part the groups further."""
    gain = 0.0
    for group in groups:
        whole = _probability(group)
        for part in _parts(group, press):
            share = _probability(part)
            if share:
                gain -= share * math.log2(share / whole)
    return gain


def _probability(group: Alike) -> float:
    return sum(one.probability for one in group)
