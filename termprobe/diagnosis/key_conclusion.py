"""Which single fault explains the presses so far, and which presses speak for and against it."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from termprobe.diagnosis.key_hypothesis import Hypothesis, outcome_of
from termprobe.diagnosis.key_outcomes import Outcome
from termprobe.diagnosis.key_ranking import Outcomes, Ranked, ranked
from termprobe.diagnosis.key_table import KeyTable, presses_of, table_for
from termprobe.diagnosis.next_presses import next_presses
from termprobe.plan.model import Press
from termprobe.profile.model import Profile

SHOWN = 8
"""Suspects that are named at most."""
LEAST = 0.001
"""Suspects less probable than this are left out."""
TOLERATED = 0.1
"""A suspect explains a walk of which at most this share of presses contradicts it."""


@dataclass(frozen=True)
class Suspect:
    """Faults that the presses so far cannot tell apart, one of which may be the cause."""

    faults: tuple[str, ...]
    title: str
    block: str
    probability: float
    supports: tuple[str, ...]
    """Presses that went wrong just as it predicts."""
    contradicts: tuple[str, ...]
    """Presses that it does not explain."""


@dataclass(frozen=True)
class Conclusion:
    """What the presses so far say."""

    explained: bool
    """A single fault, or none, accounts for what came."""
    is_healthy: bool
    """Nothing speaks for a fault."""
    suspects: tuple[Suspect, ...] = ()
    """Best first; empty where all is well."""
    next: tuple[str, ...] = ()
    """Up to three presses that would decide best between the leading suspects."""
    odd: tuple[str, ...] = ()
    """Presses of which something came that the leading hypothesis, a fault or none, does not
    predict: slips, or more faults."""


class _Observed(NamedTuple):
    """What came of a press, once."""

    press: str
    outcome: Outcome

    def is_as(self, hypothesis: Hypothesis) -> bool:
        """Tell whether it is what `hypothesis` predicts."""
        return self.outcome.count_in(hypothesis.sends[self.press]) > 0


def conclude(profile: Profile, outcomes: Mapping[str, Sequence[Outcome]]) -> Conclusion:
    """Return the Conclusion for `outcomes`, press or chord id -> what came each time."""
    if _is_all_right(profile, outcomes):
        return Conclusion(explained=True, is_healthy=True)
    table = table_for(profile, outcomes.keys())
    healthy, came = table.healthy, compared_outcomes(table, outcomes)
    if not came:
        return Conclusion(explained=True, is_healthy=True)
    observed = [_Observed(press, outcome) for press, heard in came.items() for outcome in heard]
    found = ranked(table, came)
    leading = found[0].members[0]
    is_explained = _explains(leading, observed, healthy)
    odd = _pressed(one for one in observed if not one.is_as(leading))
    if leading is healthy:
        return Conclusion(is_explained, is_healthy=True, odd=odd)
    named = [one for one in found[:SHOWN] if one.probability >= LEAST]
    suspects = [_suspect(one, observed, healthy) for one in named if one.members[0] is not healthy]
    candidates = [press for press in table.presses if press not in outcomes]
    next_ = next_presses(named, candidates)
    return Conclusion(is_explained, False, tuple(suspects), next_, odd)


def _is_all_right(profile: Profile, outcomes: Mapping[str, Sequence[Outcome]]) -> bool:
    """Return whether all came as of a healthy keyboard: no other explains it as well.

    That is known without the table, which takes minutes of a keyboard of thousands of keys.
    """
    presses = presses_of(profile, outcomes.keys())
    return all(
        _is_right(presses[press], heard) for press, heard in outcomes.items() if press in presses
    )


def _is_right(press: Press, heard: Sequence[Outcome]) -> bool:
    """Return whether the code of a press came of it each time."""
    return set(_compared(press, heard)) <= {outcome_of(press, press.code)}


def compared_outcomes(table: KeyTable, outcomes: Mapping[str, Sequence[Outcome]]) -> Outcomes:
    """Return the outcomes as they are compared, of the presses that the table knows."""
    return {
        press: _compared(table.presses[press], heard)
        for press, heard in outcomes.items()
        if press in table.presses and heard
    }


def _compared(press: Press, heard: Sequence[Outcome]) -> list[Outcome]:
    return [outcome.as_compared(press) for outcome in heard]


def _pressed(observed: Iterable[_Observed]) -> tuple[str, ...]:
    """Return the id of each press once."""
    return tuple(dict.fromkeys(one.press for one in observed))


def _explains(leading: Hypothesis, observed: Sequence[_Observed], healthy: Hypothesis) -> bool:
    """Tell whether `leading` accounts for nearly all that came, and for most of what went wrong."""
    against = [one for one in observed if not one.is_as(leading)]
    if len(against) > TOLERATED * len(observed) + 1:
        return False
    wrong = [one for one in observed if not one.is_as(healthy)]
    accounted = [one for one in wrong if one.is_as(leading)]
    if not wrong or len(accounted) * 2 > len(wrong):
        return True
    return leading is healthy and len(wrong) == 1


def _suspect(found: Ranked, observed: Sequence[_Observed], healthy: Hypothesis) -> Suspect:
    first = found.members[0]
    supports = [one for one in observed if one.is_as(first) and not one.is_as(healthy)]
    contradicts = [one for one in observed if not one.is_as(first)]
    return Suspect(
        tuple(one.name for one in found.members),
        title_of_class([one.title for one in found.members]),
        first.block,
        found.probability,
        _pressed(supports),
        _pressed(contradicts),
    )


def title_of_class(titles: Sequence[str]) -> str:
    """Return what is wrong in one line: both titles of a pair, the most common one of more."""
    first, *others = titles
    if not others:
        return first
    if len(others) == 1:
        return f"{first}; or {others[0]}"
    return f"{first} (or {len(others)} more that look the same)"
