"""Causes with which a picture comes of what was sent before: that is played again as it was.

The dictionary knows what such a look shows after the whole script, and alone. A run goes its own
way.
"""

from collections.abc import Callable, Sequence, Set

from termprobe.board.faults.catalogue import fault as fault_named
from termprobe.diagnosis.accounts import Account, Case, has_wrong_speed, score
from termprobe.diagnosis.answers import LookAnswer
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.playing import Performance
from termprobe.journal.records import StepBegun

MARGIN = 7.0
"""A cause that stands so far behind the best, in log-odds, is not played: one in a thousand."""
MOST_PLAYED = 120


def with_history(
    case: Case, healthy: Account, accounts: Sequence[Account], dictionary: FaultDictionary
) -> list[Account]:
    """Return `accounts`, those in front told by the run itself where pictures were offered.

    Only those are told anew with which some look differs from one way of playing to the other.
    """
    steps = _offered(case)
    if not steps:
        return list(accounts)
    best = score(healthy, healthy)
    told: list[Account] = []
    played = 0
    for one in sorted(accounts, key=lambda account: -score(account, healthy)):
        is_in_front = played < MOST_PLAYED and score(one, healthy) >= best - MARGIN
        if is_in_front and _depends(one.cause.name, dictionary):
            one = _told_anew(case, one, steps)
            played += 1
        best = max(best, score(one, healthy))
        told.append(one)
    return told


def _depends(name: str, dictionary: FaultDictionary) -> bool:
    """Return whether looks show with this fault what was sent before them, too."""
    performance = dictionary.faults.get(name)
    return performance is not None and performance.in_order != performance.alone


def _offered(case: Case) -> set[str]:
    """Return the looks of which pictures were offered."""
    looks = [one for one in case.observations if isinstance(one, LookAnswer)]
    return {one.step_id for one in looks if one.picked is not None}


def _told_anew(case: Case, account: Account, steps: Set[str]) -> Account:
    """Return the account with the looks `steps` told anew; a wrong clock has no certain picture."""
    fault = fault_named(case.profile, account.cause.name)
    if has_wrong_speed([fault]):
        return account
    played = case.by_replay(account.cause, fault)
    anew = {step: fit for step, fit in played.fits.items() if step in steps}
    return Account(account.cause, {**account.fits, **anew})


def score_at_best(
    told: Case, healthy: Account, dictionary: FaultDictionary
) -> Callable[[Account], float]:
    """Return what tells the score that a cause has at most once it is played.

    A look of `told` that shows what was sent before may then fit altogether, whatever it shows in
    the two ways that the dictionary knows. Where the run went one of these to its end, nothing is
    open: what was there at power-up matters to the first looks alone.
    """
    numbers = {look: number for number, look in enumerate(dictionary.looks)}
    looked = [one.step_id for one in told.observations if one.step_id in numbers]
    if _went_in_order(told, dictionary):
        looked = []

    def at_best(account: Account) -> float:
        performance = dictionary.faults[account.cause.name]
        open_looks = [step for step in looked if _is_open(performance, numbers[step])]
        missed = (account.fits[step].log_likelihood for step in open_looks)
        return score(account, healthy) - sum(missed)

    return at_best


def _went_in_order(told: Case, dictionary: FaultDictionary) -> bool:
    """Return whether all looks of the plan were sent, each once and in its order."""
    begun = [one.step for one in told.records if isinstance(one, StepBegun)]
    return tuple(step for step in begun if step in dictionary.looks) == dictionary.looks


def _is_open(performance: Performance, look: int) -> bool:
    """Return whether what a look shows depends on what was sent before it."""
    return performance.in_order[look] != performance.alone[look]
