"""Two faults at once: leading suspects are put together on one board where none explains alone."""

from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import NamedTuple

from termprobe.board.faults.catalogue import fault as fault_named
from termprobe.diagnosis.accounts import Account, Case, score
from termprobe.diagnosis.answers import LookAnswer
from termprobe.diagnosis.causes import Cause
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.explained import accounts_for_all
from termprobe.diagnosis.residual import fits_what_is_left
from termprobe.errors import UsageError

LEADERS, PARTNERS = 4, 10
"""So many of the best are each tried with so many partners; and as many of those that predict most
failed looks as they were."""
PAIRED = 6
"""So many of the best are tried with one another."""
ROUNDS = 3
"""So often the faults of the best pairs are tried with partners of their own."""
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


Pair = tuple[Account, Account]


class _Played(NamedTuple):
    """A pair, and how both at once account for a run."""

    score: float
    pair: Pair
    account: Account


def pairs(
    case: Case, healthy: Account, accounts: Sequence[Account], dictionary: FaultDictionary
) -> tuple[SuspectPair, ...]:
    """Return pairs of faults that account for more than any alone, best first; none if none do."""
    ranked = sorted(accounts, key=lambda one: -score(one, healthy))
    if not ranked:
        return ()
    search = _Search(case, healthy, ranked, dictionary)
    best = score(ranked[0], healthy)
    better = [one for one in search.best_first() if one.score > best]
    return tuple(_suspect_pair(case, healthy, one) for one in better[:NAMED_PAIRS])


class _Search:
    """Plays pairs: first those of leading suspects, then the faults of the best with others."""

    def __init__(
        self,
        case: Case,
        healthy: Account,
        ranked: Sequence[Account],
        dictionary: FaultDictionary,
    ) -> None:
        self._case, self._healthy, self._ranked = case, healthy, ranked
        self._dictionary = dictionary
        looks = [one for one in case.observations if isinstance(one, LookAnswer)]
        self._are_read = all(one.codes is not None for one in looks)
        self._played: dict[frozenset[str], _Played | None] = {}
        self._led: set[str] = set()

    def best_first(self) -> list[_Played]:
        """Return all pairs that were played; the search ends where one accounts for all."""
        for pair in combinations(self._ranked[:PAIRED], 2):
            self._play(pair)
        leaders = [*self._ranked[:LEADERS], *self._by_looks_predicted()[:LEADERS]]
        for _ in range(ROUNDS):
            for leader in leaders:
                self._lead(leader)
            found = self._found()
            if not found or accounts_for_all(found[0].account, self._healthy, self._case):
                break
            leaders = [one for played in found[:NAMED_PAIRS] for one in played.pair]
        return self._found()

    def _found(self) -> list[_Played]:
        found = [one for one in self._played.values() if one is not None]
        return sorted(found, key=lambda one: -one.score)

    def _by_looks_predicted(self) -> list[Account]:
        """Return the causes by how many looks that failed are just as they predict."""
        failed = [one.step_id for one in self._case.observations if not one.has_passed]

        def predicted(one: Account) -> int:
            return sum(step in one.fits and one.fits[step].is_as_predicted for step in failed)

        return sorted(self._ranked, key=lambda one: -predicted(one))

    def _lead(self, leader: Account) -> None:
        """Play `leader` with its partners, once."""
        if leader.cause.name in self._led:
            return
        self._led.add(leader.cause.name)
        for partner in self._partners(leader):
            self._play((leader, partner))

    def _partners(self, leader: Account) -> Iterator[Account]:
        """Yield those that promise to account for what `leader` leaves open."""
        others = [one for one in self._ranked if one is not leader]
        yield from sorted(others, key=lambda one: -_help(leader, one, self._healthy))[:PARTNERS]
        if self._are_read and leader.cause.name in self._dictionary.faults:
            likeness = fits_what_is_left(self._case, leader, self._dictionary)
            yield from sorted(others, key=lambda one: -likeness(one))[:PARTNERS]

    def _play(self, pair: Pair) -> None:
        names = _names(pair)
        if names not in self._played:
            self._played[names] = None
            account = _together(self._case, pair)
            if account is not None:
                self._played[names] = _Played(score(account, self._healthy), pair, account)


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


def _suspect_pair(case: Case, healthy: Account, played: _Played) -> SuspectPair:
    first, second = (one.cause for one in played.pair)
    return SuspectPair(
        (first.name, second.name),
        (first.title, second.title),
        (first.block, second.block),
        accounts_for_all(played.account, healthy, case),
    )
