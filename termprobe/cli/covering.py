"""Which looks of a plan spare others, worked out once and kept."""

from termprobe.errors import UsageError
from termprobe.plan.covered import Covering, coverable_looks, with_covering
from termprobe.plan.model import Plan
from termprobe.profile.model import Profile

NONE: Covering = {}


def covered(plan: Plan, profile: Profile, profile_text: str) -> Plan:
    """Return `plan` with the looks covered of which others show all that they would.

    They are those of a simulated board; a profile of which none can be simulated has none. Where
    it takes longer than a moment, a line on standard error says so.
    """
    looks = [one for one in coverable_looks(plan) if not plan.step(one).not_fitted]
    if profile.circuit is None or len(looks) < 2:
        return with_covering(plan, NONE)
    return with_covering(plan, _kept_covering(plan, profile, profile_text))


def _kept_covering(plan: Plan, profile: Profile, profile_text: str) -> Covering:
    from termprobe.diagnosis.cache_folder import find, keep, key_of
    from termprobe.diagnosis.dictionary_form import (
        WRONG_FORM,
        covering_bytes,
        covering_in_bytes,
    )

    name = f"covering-{key_of(profile_text, plan.hash)}"
    try:
        return covering_in_bytes(find(name) or b"")
    except WRONG_FORM:
        made = _worked_out(plan, profile, profile_text)
        keep(name, covering_bytes(made))
        return made


def _worked_out(plan: Plan, profile: Profile, profile_text: str) -> Covering:
    from termprobe.board.link import board_format
    from termprobe.cli.kept_dictionary import kept_dictionary
    from termprobe.diagnosis.covering import covering_of

    try:
        dictionary = kept_dictionary(plan, profile, profile_text)
    except UsageError:
        return NONE
    return covering_of(dictionary, plan, board_format(profile).character_s)
