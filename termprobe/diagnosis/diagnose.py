"""What would explain a run: suspects for display, line and keyboard, by one engine. Pure.

By the dictionary it is known of every fault which looks differ. Only for those that then lead the
run is played again, to compare whole screens.
"""

from collections.abc import Iterator, Sequence

from termprobe.board.faults.catalogue import catalogue
from termprobe.diagnosis.accounts import Account, Case, score
from termprobe.diagnosis.answers import evidence_of
from termprobe.diagnosis.causes import cause_of_cell
from termprobe.diagnosis.confirming import confirming_look
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.error_rates import rates_by
from termprobe.diagnosis.explained import accounts_for_all, alone_against
from termprobe.diagnosis.joined import joined
from termprobe.diagnosis.key_conclusion import (
    Suspect,
    compared_outcomes,
    conclude,
)
from termprobe.diagnosis.key_outcomes import outcomes_of
from termprobe.diagnosis.key_ranking import Outcomes
from termprobe.diagnosis.key_table import KeyTable, table_for
from termprobe.diagnosis.looks_before import with_history
from termprobe.diagnosis.marked_looks import MarkedLooks
from termprobe.diagnosis.model import Diagnosis
from termprobe.diagnosis.next_look import next_look
from termprobe.diagnosis.pairs import SuspectPair, pairs
from termprobe.diagnosis.probing import Probing, named_for_probing, probe_of
from termprobe.diagnosis.ranking import (
    LEAST_PROBABLE,
    SUSPECTS_NAMED,
    BlockShare,
    RankedClass,
    block_shares,
    mixed,
    ranked_classes,
    suspect_of,
)
from termprobe.diagnosis.readings import last_readings
from termprobe.diagnosis.single_cells import cells_by_looks, cells_in_question
from termprobe.diagnosis.single_dots import cause_of_dots, dots_by_looks, dots_in_question
from termprobe.diagnosis.spectrum import exercised_by, ochiai_ranks
from termprobe.diagnosis.toggling import toggled_by
from termprobe.diagnosis.told_alone import is_more_told, told_alone
from termprobe.diagnosis.why_next import WhyNext
from termprobe.journal.records import Record
from termprobe.plan.model import Plan
from termprobe.profile.model import Profile
from termprobe.verdict.model import RunVerdict

MARGIN = 7.0
"""A cause that stands so far behind the best, in log-odds, is not played again: one in thousand."""
MOST_BYTES, FEWEST_PLAYED = 2_000_000, 60
"""So many bytes are sent to boards altogether, if that is not for less than so many boards."""


def case_of(profile: Profile, plan: Plan, records: Sequence[Record], verdict: RunVerdict) -> Case:
    """Return what is known of the board of a run."""
    observations = evidence_of(plan, records, verdict)
    outcomes = outcomes_of(records)
    table: KeyTable | None = None
    came: Outcomes = {}
    if profile.keyboard is not None:
        table = table_for(profile, outcomes.keys())
        came = compared_outcomes(table, outcomes)
    return Case(profile, plan, records, observations, came, table, rates_by(records))


def diagnose(
    profile: Profile,
    plan: Plan,
    records: Sequence[Record],
    verdict: RunVerdict,
    dictionary: FaultDictionary | None,
) -> Diagnosis:
    """Return what would explain a run of `plan`, as far as `verdict` lets its answers count.

    `dictionary` is that of the plan, None where no board can be simulated.
    """
    case = case_of(profile, plan, records, verdict)
    if all(one.has_passed for one in case.observations):
        return _of_presses(profile, records, verdict)
    healthy = case.of_nothing()
    accounts = all_accounts(case, healthy, dictionary)
    found = ranked_classes(healthy, accounts)
    leading = found[0].first
    is_explained = leading is not healthy and accounts_for_all(leading, healthy, case)
    named = [one for one in found if one.probability >= LEAST_PROBABLE]
    suspects = [suspect_of(one, healthy) for one in named if one.first is not healthy]
    following, why_next = _following(case, found, (healthy, *accounts), verdict, dictionary)
    return Diagnosis(
        verdict.verdict,
        is_explained,
        tuple(suspects[:SUSPECTS_NAMED]),
        _blocks(found, is_explained, case, dictionary),
        following,
        tuple(_probes(suspects, case, dictionary)),
        tuple(_pairs(case, healthy, accounts, is_explained, dictionary)),
        why_next=why_next,
    )


def _following(
    case: Case,
    found: Sequence[RankedClass],
    everyone: Sequence[Account],
    verdict: RunVerdict,
    dictionary: FaultDictionary | None,
) -> tuple[str | None, WhyNext]:
    """Return the id of the step to ask next, None for none, and why; `everyone` begins healthy."""
    healthy, *accounts = everyone
    leading = found[0].first
    if leading is not healthy and not accounts_for_all(leading, healthy, case):
        against = alone_against(leading, healthy, case)
        if against is not None:
            return against, WhyNext.AGAINST
    was_asked = last_readings(case)
    telling = next_look(case, found, verdict, dictionary)
    if telling is not None:
        return telling, WhyNext.TELLS_MOST_AGAIN if telling in was_asked else WhyNext.TELLS_MOST
    confirming = confirming_look(case, healthy, accounts, verdict, dictionary)
    return confirming, WhyNext.HANGS if confirming in was_asked else WhyNext.TELLS_MOST


def _pairs(
    case: Case,
    healthy: Account,
    accounts: Sequence[Account],
    is_explained: bool,
    dictionary: FaultDictionary | None,
) -> Sequence[SuspectPair]:
    """Return two faults that account for more together, where a board can be simulated."""
    if is_explained or dictionary is None:
        return ()
    return pairs(case, healthy, accounts, dictionary)


def _blocks(
    found: Sequence[RankedClass],
    is_explained: bool,
    case: Case,
    dictionary: FaultDictionary | None,
) -> tuple[BlockShare, ...]:
    """Return the blocks, best first.

    Where no cause explains the run, half of it is by which steps failed.
    """
    shares = block_shares(found)
    if not is_explained:
        healthy = case.of_nothing().fits
        failed = [step for step, fit in healthy.items() if not fit.is_as_predicted]
        passed = [step for step, fit in healthy.items() if fit.is_as_predicted]
        ranks = ochiai_ranks(exercised_by(case, dictionary), failed, passed)
        shares = mixed(shares, ranks)
    return tuple(one for one in shares if one.probability >= LEAST_PROBABLE)


def _probes(
    suspects: Sequence[Suspect], case: Case, dictionary: FaultDictionary | None
) -> Iterator[Probing]:
    """Yield what to probe for the first suspect."""
    for name in named_for_probing(suspects):
        probe = probe_of(name, case.profile)
        if probe is not None:
            yield probe._replace(step=toggled_by(name, case.plan, dictionary))


def _of_presses(profile: Profile, records: Sequence[Record], verdict: RunVerdict) -> Diagnosis:
    """Return the Diagnosis where nothing is wrong but what keys send, if anything is."""
    if profile.keyboard is None:
        return Diagnosis(verdict.verdict, is_explained=True)
    found = conclude(profile, outcomes_of(records))
    shares: dict[str, float] = {}
    for suspect in found.suspects:
        shares[suspect.block] = shares.get(suspect.block, 0.0) + suspect.probability
    blocks = sorted(shares.items(), key=lambda item: -item[1])
    return Diagnosis(
        verdict.verdict,
        found.explained,
        found.suspects,
        tuple(BlockShare(*pair) for pair in blocks),
        next(iter(found.next), None),
    )


def all_accounts(case: Case, healthy: Account, dictionary: FaultDictionary | None) -> list[Account]:
    """Return an Account of every cause, those of the display replayed where that tells more."""
    of_keys = list(case.by_presses())
    if dictionary is None:
        return of_keys
    by_dictionary = case.by_dictionary(dictionary, catalogue(case.profile).values())
    of_display = with_history(case, by_dictionary, dictionary)
    if not is_more_told(case):
        of_display += [*cells_by_looks(case), *dots_by_looks(case, dictionary)]
    else:
        of_display = _replayed(case, healthy, of_display, dictionary)
        of_display += [*_replayed_cells(case), *_replayed_dots(case)]
    return joined(of_display, of_keys, healthy)


def _replayed(
    case: Case, healthy: Account, accounts: Sequence[Account], dictionary: FaultDictionary
) -> list[Account]:
    """Return `accounts`, those in front made anew by the screens that the boards would show."""
    looks, faults = MarkedLooks(told_alone(case), dictionary), catalogue(case.profile)
    best = score(healthy, healthy)
    played: list[Account] = []
    in_front = sorted(accounts, key=lambda one: -score(one, healthy))
    for known in in_front:
        is_spent = looks.bytes_played >= MOST_BYTES and len(played) >= FEWEST_PLAYED
        if score(known, healthy) < best - MARGIN or is_spent:
            break
        played.append(looks.told_anew(known, faults[known.cause.name]))
        best = max(best, score(played[-1], healthy))
    return played + in_front[len(played) :]


def _replayed_cells(case: Case) -> list[Account]:
    faults = cells_in_question(case)
    return [case.by_replay(cause_of_cell(fault, case.profile), fault) for fault in faults]


def _replayed_dots(case: Case) -> list[Account]:
    faults = dots_in_question(case)
    return [case.by_replay(cause_of_dots(fault, case.profile), fault) for fault in faults]
