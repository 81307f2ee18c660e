"""Whether one cause accounts for all answers. None counts that it does not predict."""

from dataclasses import replace

from termprobe.diagnosis.accounts import Account, Case
from termprobe.diagnosis.answers import LookAnswer, Observation
from termprobe.diagnosis.readings import last_readings

ONE_MISSED_OF = 5
"""Eyes may have missed one in so many of the looks that a cause shows in."""
ONE_REGION_OF = 7
"""What was said of one region in so many, and of one more, may be a slip."""
ONE_PRESS_OF = 10
"""One press in so many, and one more, may be a slip; most that went wrong must be accounted for."""


def accounts_for_all(account: Account, healthy: Account, case: Case) -> bool:
    """Return whether `account` predicts all that was answered in `case`, but for slips.

    Slips are looks that eyes passed although they should differ, where they are few against those
    that did, a few presses, and few of the regions that were told of. Whatever failed must be
    predicted.
    """
    return (
        _of_steps(account, healthy, case)
        and _of_regions(account, healthy, case)
        and _of_presses(account, healthy, case)
    )


def alone_against(account: Account, healthy: Account, case: Case) -> str | None:
    """Return the id of the look but for whose answer `account` would account for all, else None.

    It is one that eyes answered once, and that may be asked once more.
    """
    fits = {**healthy.fits, **account.fits}
    odd = [one for one in case.observations if not fits[one.step_id].is_as_predicted]
    if len(odd) != 1 or odd[0].step_id not in last_readings(case) or _was_asked_again(odd[0]):
        return None
    others = tuple(one for one in case.observations if one is not odd[0])
    has_failed = any(not one.has_passed for one in others)
    rest = replace(case, observations=others)
    if not has_failed or not accounts_for_all(account, healthy, rest):
        return None
    return odd[0].step_id


def _was_asked_again(one: Observation) -> bool:
    return isinstance(one, LookAnswer) and bool(one.before)


def _of_steps(account: Account, healthy: Account, case: Case) -> bool:
    fits = {**healthy.fits, **account.fits}
    odd = [one for one in case.observations if not fits[one.step_id].is_as_predicted]
    if any(not one.has_passed or _is_read(one) for one in odd):
        return False
    failed = sum(not one.has_passed for one in case.observations)
    return len(odd) * (ONE_MISSED_OF - 1) <= failed


def _is_read(one: object) -> bool:
    """Return whether no eye could miss it."""
    return not isinstance(one, LookAnswer) or one.codes is not None


def _of_regions(account: Account, healthy: Account, case: Case) -> bool:
    fits = {**healthy.fits, **account.fits}
    told = [right for one in case.observations for right in fits[one.step_id].regions]
    return told.count(False) * ONE_REGION_OF <= len(told) + ONE_REGION_OF


def _of_presses(account: Account, healthy: Account, case: Case) -> bool:
    fits = {**healthy.fits, **account.fits}
    odd = sum(not fits[press].is_as_predicted for press in case.came)
    wrong = [press for press in case.came if not healthy.fits[press].is_as_predicted]
    accounted = sum(fits[press].is_as_predicted for press in wrong)
    is_within_slips = odd * ONE_PRESS_OF <= len(case.came) + ONE_PRESS_OF
    return is_within_slips and (not wrong or 2 * accounted > len(wrong))
