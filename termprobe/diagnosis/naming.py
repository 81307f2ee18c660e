"""The moment in a run at which one fault explains what failed, and what to ask before. Pure."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from termprobe.board.faults import speed
from termprobe.board.faults.model import block_of
from termprobe.diagnosis.accounts import Account, Case
from termprobe.diagnosis.causes import Cause
from termprobe.diagnosis.diagnose import all_accounts, case_of
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.explained import accounts_for_all, alone_against
from termprobe.diagnosis.key_conclusion import title_of_class
from termprobe.diagnosis.next_look import next_look
from termprobe.diagnosis.pivotal import pivotal_looks
from termprobe.diagnosis.probing import Probing, probe_of
from termprobe.diagnosis.ranking import RankedClass, ranked_classes
from termprobe.diagnosis.readings import asked_again
from termprobe.diagnosis.shown import Sight
from termprobe.diagnosis.toggling import toggled_by
from termprobe.journal.records import Record
from termprobe.plan.model import Plan
from termprobe.profile.model import Profile
from termprobe.verdict.model import UNANSWERED, RunVerdict

LEAST_SURE = 0.9
"""From this probability on a fault is named. One in ten named may then be wrong, and does little
harm: a builder who repairs measures first, and one who goes on sees the very next screen differ."""
UNTIL_SURE = 0.95
"""From this one on where nobody is asked, and as long as a look may tell more."""
LEAST_FAILED = 2
"""So many looks must have failed: one alone may be a slip of the eye."""
MOST_ASKED_AGAIN = 2
"""So many answers are asked for once more at most before a fault is named on the way. A report goes
on asking; on the way a fault named wrongly does little harm, as is said above."""
MOST_CHANGED = 0.5
"""A fault that changes more of a screen than this share hides what else may be wrong with it: eyes
then compare a page of nonsense with another."""

CELLS = ("cell/", "glyph-cell/")
"""So begin the names of faults of single cells, of RAM and of character generator, which the
dictionary does not list."""


class NamedCause(NamedTuple):
    """The faults that would explain all that failed, and that no look of the plan tells apart."""

    fault: str
    """The most probable one."""
    alike: tuple[str, ...]
    """The others."""
    title: str
    probability: float
    """Of all of them."""
    explains: tuple[str, ...]
    """Ids of the looks that have failed as it predicts."""
    probe: Probing | None
    hidden: tuple[str, ...]
    """Ids of the looks of which it changes most."""
    is_foreseen: bool
    """Whether it can be told beforehand what a board with it shows."""


class Naming(NamedTuple):
    """What can be said after a look has failed."""

    cause: NamedCause | None = None
    """None while none can be named."""
    next: str | None = None
    """Id of the look that would then help most to name one; None where any is as good. It may be
    one that was answered, and is to be looked at once more."""


NOTHING_NAMED = Naming()


def name_cause(
    profile: Profile,
    plan: Plan,
    records: Sequence[Record],
    verdict: RunVerdict,
    dictionary: FaultDictionary,
    is_until_sure: bool = False,
) -> Naming:
    """Return what can be said of the cause, by the answers so far.

    `dictionary` is that of the plan. Where faults are known already nothing is named: what they do
    not explain has its own cause. `is_until_sure` tells that nobody is asked about what is named.
    """
    if verdict.known_faults:
        return NOTHING_NAMED
    case = case_of(profile, plan, records, verdict)
    if all(one.has_passed for one in case.observations):
        return NOTHING_NAMED
    healthy = case.of_nothing()
    accounts = all_accounts(case, healthy, dictionary)
    found = ranked_classes(healthy, accounts)
    leading = found[0]
    is_explained = leading.first is not healthy and accounts_for_all(leading.first, healthy, case)
    if not is_explained:
        return _unless_one_answer_is_against(leading, healthy, case)
    cause = _cause(leading, case, dictionary)
    has_failed_enough = sum(not one.has_passed for one in case.observations) >= LEAST_FAILED
    is_open = cause is None or (is_until_sure and cause.probability < UNTIL_SURE)
    telling = None
    if has_failed_enough and is_open:
        telling = next_look(case, found, verdict, dictionary)
    match cause:
        case _ if telling is not None:
            return Naming(next=telling)
        case None:
            return NOTHING_NAMED
        case _ if not has_failed_enough:
            return Naming(next=_confirming(cause, verdict, dictionary))
    pivotal = pivotal_looks(case, healthy, accounts)
    return _unless_it_hangs_on(pivotal, cause, case)


def _unless_one_answer_is_against(leading: RankedClass, healthy: Account, case: Case) -> Naming:
    """Return the Naming of no cause; where a single answer keeps one from it, of that look."""
    if leading.first is healthy or leading.probability < LEAST_SURE:
        return NOTHING_NAMED
    if asked_again(case) >= MOST_ASKED_AGAIN:
        return NOTHING_NAMED
    return Naming(next=alone_against(leading.first, healthy, case))


def _unless_it_hangs_on(pivotal: Sequence[str], cause: NamedCause, case: Case) -> Naming:
    """Return the Naming of `cause`, or of the look that is to be asked once more before."""
    if pivotal and asked_again(case) < MOST_ASKED_AGAIN:
        return Naming(next=pivotal[0])
    return Naming(cause)


def _cause(leading: RankedClass, case: Case, dictionary: FaultDictionary) -> NamedCause | None:
    """Return the part of the leading class that no look tells apart, where it is probable."""
    alike: dict[object, list[tuple[float, Account]]] = {}
    for share, one in zip(leading.shares, leading.members, strict=True):
        name = one.cause.name
        alike.setdefault(dictionary.faults.get(name, name), []).append((share, one))
    members = max(alike.values(), key=lambda some: sum(share for share, _ in some))
    probability = sum(share for share, _ in members)
    first = members[0][1]
    if probability < LEAST_SURE or not _is_one_fault(first.cause, dictionary):
        return None
    fault = first.cause.name
    return NamedCause(
        fault,
        tuple(one.cause.name for _, one in members[1:]),
        title_of_class([one.cause.title for _, one in members]),
        probability,
        tuple(one.step_id for one in case.observations if not one.has_passed),
        _probe(fault, case, dictionary),
        tuple(_hidden(fault, case.plan, dictionary)),
        _is_foreseen(fault),
    )


def _is_one_fault(cause: Cause, dictionary: FaultDictionary) -> bool:
    """Return whether `cause` is a fault of the display whose screens can be drawn."""
    is_cell = cause.name.startswith(CELLS) and not cause.alike
    return is_cell or cause.name in dictionary.faults


def _probe(fault: str, case: Case, dictionary: FaultDictionary) -> Probing | None:
    probe = probe_of(fault, case.profile)
    if probe is None:
        return None
    return probe._replace(step=toggled_by(fault, case.plan, dictionary))


def _hidden(fault: str, plan: Plan, dictionary: FaultDictionary) -> Iterator[str]:
    """Yield the ids of the looks of which a board with `fault` changes more than MOST_CHANGED.

    These are all where nothing can be foreseen.
    """
    most = MOST_CHANGED * plan.rows * plan.columns
    for look, sight in _sights(fault, dictionary):
        if not _is_foreseen(fault) or sight.cells > most:
            yield look


def _is_foreseen(fault: str) -> bool:
    """Return whether screens can be foreseen: with a wrong clock they hang on when one pauses."""
    return block_of(fault) not in speed.BLOCKS


def _sights(fault: str, dictionary: FaultDictionary) -> Iterator[tuple[str, Sight]]:
    """Yield (id, how it differs) of each look; nothing is known of single cells."""
    if fault in dictionary.faults:
        yield from zip(dictionary.looks, dictionary.faults[fault].in_order, strict=True)


def _confirming(cause: NamedCause, verdict: RunVerdict, dictionary: FaultDictionary) -> str | None:
    """Return the id of the first look still open that must differ as well if it is `cause`."""
    sights = dict(_sights(cause.fault, dictionary))
    for step in verdict.steps:
        is_open = step.verdict == UNANSWERED
        if is_open and step.id in sights and sights[step.id].picture:
            return step.id
    return None
