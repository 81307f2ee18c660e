"""Which presses a walk over a keyboard asks for: all or the fewest, and chords if wanted."""

from collections.abc import Callable
from typing import TYPE_CHECKING, NamedTuple

from termprobe.cli.request import Choice
from termprobe.errors import UsageError
from termprobe.plan.choose import choose
from termprobe.plan.model import Plan, Press
from termprobe.plan.presses import coded_presses
from termprobe.profile.model import Keyboard, Profile

if TYPE_CHECKING:
    from termprobe.diagnosis.key_sets import Quick

KEYBOARD_SCRIPT = "keyboard"
"""Id of the script that is walked through."""
KEYS, CHORDS = "keyboard", "chords"
"""Its stages."""
ALL, QUICK, TELLING = "all", "quick", "telling"
"""Every press; the fewest that show every fault of lines; the fewest that tell those apart."""


def keyboard_of(profile: Profile) -> Keyboard:
    """Return the keyboard of the profile; raise UsageError where it describes none."""
    if profile.keyboard is None:
        raise UsageError(
            f"--profile must name a profile that describes a keyboard, and {profile.id} does not"
        )
    return profile.keyboard


class Chosen(NamedTuple):
    """The presses of single keys that are asked for."""

    presses: tuple[Press, ...]
    """In the order in which they are asked for."""
    proof: str
    """That no fewer would do, as far as it is proved; empty where all are asked for."""


def chosen_presses(profile: Profile, which: str) -> Chosen:
    """Return the presses of single keys that are asked for, and why no more are."""
    every = coded_presses(profile)
    if which == ALL:
        return Chosen(every, "")
    from termprobe.report.key_set_words import proof_in_words

    few = _fewest(profile, which)
    presses = tuple(press for press in every if press.id in few.presses)
    return Chosen(presses, proof_in_words(few))


def key_choice(which: str, has_chords: bool) -> Choice:
    """Return the choice of the presses out of the plan of KEYBOARD_SCRIPT."""

    def choice(profile: Profile, plan: Plan) -> Plan:
        is_wanted = _wanted(profile, which)
        ids = [step.id for step in plan.of_stage(KEYS) if is_wanted(step.id)]
        if has_chords:
            ids += [step.id for step in plan.of_stage(CHORDS)]
        return choose(plan, ids)

    return choice


def _wanted(profile: Profile, which: str) -> Callable[[str], bool]:
    """Return what tells whether the press of an id is asked for."""
    if which == ALL:
        return lambda press_id: True
    return frozenset(_fewest(profile, which).presses).__contains__


def _fewest(profile: Profile, which: str) -> "Quick":
    from termprobe.diagnosis.key_sets import quick_presses, telling_presses

    keyboard_of(profile)
    return {QUICK: quick_presses, TELLING: telling_presses}[which](profile)
