"""Two faults at once: leading suspects are put together on one board where none explains alone."""

from collections.abc import Sequence
from itertools import combinations
from typing import NamedTuple

from termprobe.board.faults.catalogue import fault as fault_named
from termprobe.diagnosis.accounts import Account, Case, score
from termprobe.diagnosis.causes import Cause
from termprobe.diagnosis.explained import accounts_for_all
from termprobe.errors import UsageError

LEADERS, PARTNERS = 4, 10
"""So many of the best are each tried with so many partners."""
PAIRED = 6
"""So many of the best are tried with one another."""
BONUS = 3.0
"""Log-odds for each step of which a partner changes something that the leader leaves open."""
NAMED_PAIRS = 3


class SuspectPair(NamedTuple):
    """Two faults that would account for a run together."""

    faults: tuple[str, str]
    titles: tuple[str, str]
    blocks: tuple[str, str]
    is_explained: bool
    """They account for all that was answered."""


def pairs(case: Case, healthy: Account, accounts: Sequence[Account]) -> tuple[SuspectPair, ...]:
    """Return pairs of faults that account for more than any alone, best first; none if none do."""
    ranked = sorted(accounts, key=lambda one: -score(one, healthy))
    best = score(ranked[0], healthy) if ranked else 0.0
    played = [
        (score(account, healthy), pair, account)
        for pair in _candidates(ranked, healthy)
        if (account := _together(case, pair)) is not None
    ]
    played.sort(key=lambda one: -one[0])
    better = [(pair, account) for of_pair, pair, account in played if of_pair > best]
    return tuple(_suspect_pair(case, healthy, *one) for one in better[:NAMED_PAIRS])


Pair = tuple[Account, Account]


def _candidates(ranked: Sequence[Account], healthy: Account) -> list[Pair]:
    """Return the pairs to be tried, each once."""
    found = {_names(pair): pair for pair in combinations(ranked[:PAIRED], 2)}
    for leader in ranked[:LEADERS]:
        others = [one for one in ranked if one is not leader]
        others.sort(key=lambda one: -_help(leader, one, healthy))
        for partner in others[:PARTNERS]:
            found.setdefault(_names((leader, partner)), (leader, partner))
    return list(found.values())


def _names(pair: Pair) -> frozenset[str]:
    return frozenset(one.cause.name for one in pair)


def _help(leader: Account, partner: Account, healthy: Account) -> float:
    """Return how far `partner` is expected to lift what `leader` leaves open, in log-odds."""
    lift = 0.0
    fits = {**healthy.fits, **leader.fits}
    for step, fit in partner.fits.items():
        is_changed = fit.told != healthy.fits[step].told
        if not is_changed:
            continue
        if fits[step].is_as_predicted:
            lift -= BONUS
        else:
            lift += BONUS + max(0.0, fit.log_likelihood - fits[step].log_likelihood)
    return lift


def _together(case: Case, pair: Pair) -> Account | None:
    """Return how both at once account for a run; None where they cannot be played together."""
    try:
        faults = [fault_named(case.profile, one.cause.name) for one in pair]
    except UsageError:
        return None
    first, second = (one.cause for one in pair)
    weight = first.weight * second.weight / 100
    cause = Cause(f"{first.name} + {second.name}", "", "", weight)
    played = case.by_replay(cause, *faults)
    of_presses = {step: fit for one in pair for step, fit in one.fits.items() if step in case.came}
    return Account(cause, {**of_presses, **played.fits})


def _suspect_pair(case: Case, healthy: Account, pair: Pair, account: Account) -> SuspectPair:
    first, second = (one.cause for one in pair)
    return SuspectPair(
        (first.name, second.name),
        (first.title, second.title),
        (first.block, second.block),
        accounts_for_all(account, healthy, case),
    )
