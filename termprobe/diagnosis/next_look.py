"""Which step would tell most of what a second of the builder's time can tell.

Blocks are told apart first, since it is a block that is probed; then the faults in them.
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from termprobe.board.link import board_format
from termprobe.diagnosis.accounts import Case
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.look_outlooks import (
    Candidate,
    Outlook,
    looks_with_outlooks,
    of_several,
)
from termprobe.diagnosis.ranking import RankedClass
from termprobe.plan.effort import builder_s, sending_s
from termprobe.plan.model import Step
from termprobe.verdict.model import RunVerdict

MOST_WEIGHED = 300
"""So many of the most probable causes are weighed."""
LEAST_WEIGHED = 1e-4
LEAST_BITS = 0.05
"""A step that is expected to tell less is not worth sending: what is left open then hangs on a look
that was answered before, and no other tells; that one is asked once more. With 0.01 instead, yes
and no needed four looks more and named the true class as often."""


class Gain(NamedTuple):
    """What a step is expected to tell, in bits for each second."""

    of_blocks: float
    of_faults: float


def next_look(
    case: Case,
    found: Sequence[RankedClass],
    verdict: RunVerdict,
    dictionary: FaultDictionary | None,
    is_fewest: bool = False,
) -> str | None:
    """Return the id of the step that would tell most next; None where none would tell anything.

    It may be one that eyes have answered: to be asked once more. Where the fewest steps are wanted,
    and not the fewest seconds, `is_fewest`: each then counts the same, and all faults are told
    apart at once.
    """
    if dictionary is None:
        return None
    candidates = _candidates(found)
    gains = {
        step.id: _gain(candidates, outlooks, effort_of(case, step, is_fewest))
        for step, outlooks in looks_with_outlooks(case, candidates, verdict, dictionary)
    }
    for part in Gain._fields[is_fewest:]:
        best = max(gains, key=lambda step: getattr(gains[step], part), default=None)
        if best is not None and getattr(gains[best], part) > 0:
            return best
    return None


def _candidates(found: Sequence[RankedClass]) -> list[Candidate]:
    """Return the most probable causes; their probabilities sum to 1."""
    weighed = [
        Candidate(one.cause.name, one.cause.block, share)
        for of_class in found
        for share, one in zip(of_class.shares, of_class.members, strict=True)
        if share >= LEAST_WEIGHED
    ]
    weighed.sort(key=lambda one: -one.probability)
    kept = weighed[:MOST_WEIGHED]
    total = sum(one.probability for one in kept)
    return [one._replace(probability=one.probability / total) for one in kept]


def effort_of(case: Case, step: Step, is_fewest: bool) -> float:
    """Return what it costs to ask for `step`: its seconds, one at least, or the same for each."""
    if is_fewest:
        return 1.0
    return max(1.0, sending_s(step, board_format(case.profile).character_s) + builder_s(step))


def _gain(candidates: Sequence[Candidate], outlooks: Mapping[str, Outlook], seconds: float) -> Gain:
    """Return what a step is expected to tell for each of the `seconds` that it takes.

    Causes with one and the same Outlook are counted together: most have it with many others.
    """
    if not outlooks:
        return Gain(0.0, 0.0)
    of_blocks: dict[str, dict[int, float]] = {}
    known: dict[int, Outlook] = {}
    for one in candidates:
        outlook = outlooks[one.name]
        known[id(outlook)] = outlook
        shares = of_blocks.setdefault(one.block, {})
        shares[id(outlook)] = shares.get(id(outlook), 0.0) + one.probability
    blocks = [_parts(shares, known) for shares in of_blocks.values()]
    everyone = [part for parts in blocks for part in parts]
    entropies = {key: _entropy(outlook) for key, outlook in known.items()}
    whole = _entropy(of_several(everyone))
    in_faults = sum(share * entropies[id(outlook)] for share, outlook in everyone)
    in_blocks = sum(_total(parts) * _entropy(of_several(parts)) for parts in blocks)
    return Gain(_worth(whole - in_blocks, seconds), _worth(whole - in_faults, seconds))


def _parts(
    shares: Mapping[int, float], known: Mapping[int, Outlook]
) -> list[tuple[float, Outlook]]:
    return [(share, known[key]) for key, share in shares.items()]


def _total(parts: Iterable[tuple[float, Outlook]]) -> float:
    return sum(share for share, _ in parts)


def _worth(bits: float, seconds: float) -> float:
    """Return the bits for each second; none where they are too few."""
    return bits / seconds if bits >= LEAST_BITS else 0.0


def _entropy(outlook: Outlook) -> float:
    """Return the entropy in bits."""
    return -sum(chance * math.log2(chance) for chance in outlook.values() if chance > 0)


def gain_of_yes_or_no(shares: Sequence[float], chances: Sequence[float]) -> float:
    """Return the bits that a yes-or-no answer is expected to tell of hypotheses.

    Each has a probability in `shares`, and by it the answer is yes with the chance in `chances`.
    """
    outlooks: list[Outlook] = [{True: chance, False: 1 - chance} for chance in chances]
    pairs = list(zip(shares, outlooks, strict=True))
    expected = sum(share * _entropy(outlook) for share, outlook in pairs)
    return _entropy(of_several(pairs)) - expected
