"""How probable each class of causes is after all answers: the one engine for display, line, keys.

Causes of which all answers would be alike form one class.
"""

from collections.abc import Hashable, Iterable, Mapping, Sequence
from typing import NamedTuple

from termprobe.diagnosis.accounts import Account, score
from termprobe.diagnosis.key_conclusion import Suspect, title_of_class
from termprobe.diagnosis.key_ranking import probabilities

SUSPECTS_NAMED = 8
LEAST_PROBABLE = 0.001
"""Suspects and blocks less probable than this are left out."""


class RankedClass(NamedTuple):
    """Causes that the answers so far cannot tell apart."""

    probability: float
    members: tuple[Account, ...]
    """The most probable first."""
    shares: tuple[float, ...]
    """The probability of each member."""

    @property
    def first(self) -> Account:
        """The most probable member."""
        return self.members[0]


class BlockShare(NamedTuple):
    """How probable it is that the cause lies in one block."""

    block: str
    probability: float


def ranked_classes(healthy: Account, accounts: Iterable[Account]) -> list[RankedClass]:
    """Return every class, best first; `healthy` is in one of them."""
    everyone = [healthy, *accounts]
    shares = probabilities([score(one, healthy) for one in everyone])
    groups: dict[Hashable, list[tuple[float, Account]]] = {}
    for share, one in zip(shares, everyone, strict=True):
        groups.setdefault(departures(one, healthy), []).append((share, one))
    found = [_ranked(members) for members in groups.values()]
    return sorted(found, key=lambda one: -one.probability)


def departures(account: Account, healthy: Account) -> frozenset[tuple[str, Hashable]]:
    """Return what a cause predicts where that is not as of a good board; empty for nothing."""
    return frozenset(
        (step, fit.told)
        for step, fit in account.fits.items()
        if fit.told != healthy.fits[step].told
    )


def _ranked(members: list[tuple[float, Account]]) -> RankedClass:
    members.sort(key=lambda member: -member[0])
    shares = tuple(share for share, _ in members)
    return RankedClass(sum(shares), tuple(one for _, one in members), shares)


def block_shares(found: Sequence[RankedClass]) -> list[BlockShare]:
    """Return the blocks by the probability that the cause is there, best first."""
    shares: dict[str, float] = {}
    for of_class in found:
        for share, one in zip(of_class.shares, of_class.members, strict=True):
            shares[one.cause.block] = shares.get(one.cause.block, 0.0) + share
    shares.pop("", None)
    ranked = [BlockShare(block, share) for block, share in shares.items()]
    return sorted(ranked, key=lambda one: -one.probability)


def mixed(shares: Iterable[BlockShare], ranks: Mapping[str, float]) -> list[BlockShare]:
    """Return the blocks by half of their probability and half of their share in `ranks`.

    That no block has a fault is left aside: something is wrong where this is asked for.
    """
    known = list(shares)
    of_ranks = sum(ranks.values()) or 1.0
    of_shares = sum(one.probability for one in known) or 1.0
    found = {block: rank / of_ranks / 2 for block, rank in ranks.items()}
    for block, probability in known:
        found[block] = found.get(block, 0.0) + probability / of_shares / 2
    ranked = [BlockShare(block, share) for block, share in found.items()]
    return sorted(ranked, key=lambda one: -one.probability)


def suspect_of(found: RankedClass, healthy: Account) -> Suspect:
    """Return a class as a report names it, with what speaks for and against it."""
    first = found.first
    names = [name for one in found.members for name in (one.cause.name, *one.cause.alike)]
    titles = [one.cause.title for one in found.members if one is not healthy]
    fits = {**healthy.fits, **first.fits}
    changed = [step for step, fit in fits.items() if not healthy.fits[step].is_as_predicted]
    return Suspect(
        tuple(names),
        title_of_class(titles),
        first.cause.block,
        found.probability,
        tuple(step for step in changed if fits[step].is_as_predicted),
        tuple(step for step, fit in fits.items() if not fit.is_as_predicted),
    )
