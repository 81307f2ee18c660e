"""Which modelled faults of a board the steps that passed exclude, by its blocks. Pure."""

from collections.abc import Collection, Iterator

from termprobe.board.faults.catalogue import catalogue
from termprobe.board.faults.model import block_of
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.showing import Showing, showing_of
from termprobe.diagnosis.undetectable import undetectable
from termprobe.plan.model import Plan
from termprobe.profile.model import Profile


def excluded_by_block(
    dictionary: FaultDictionary, plan: Plan, profile: Profile, passed: Collection[str]
) -> dict[str, tuple[int, int]]:
    """Return block -> (faults that a step of `passed` would have shown, faults that can be shown).

    `passed` holds ids of steps; the blocks stand in the order of their names. Raise UsageError
    where no such board can be simulated.
    """
    showing = showing_of(dictionary, plan, profile)
    unseen = [fault.name for fault in showing.faults if not fault.is_shown]
    listed = catalogue(profile)
    hopeless = undetectable(profile, [listed[name] for name in unseen])
    possible = [fault.name for fault in showing.faults if fault.name not in hopeless]
    excluded = set(_excluded(showing, passed))
    blocks = sorted({block_of(name) for name in possible})
    return {block: _counted(block, possible, excluded) for block in blocks}


def _excluded(showing: Showing, passed: Collection[str]) -> Iterator[str]:
    """Yield the faults of which enough of the `passed` steps would have shown each."""
    own = sum(1 << number for number, step in enumerate(showing.steps) if step in passed)
    shown = [fault.name for fault in showing.faults if fault.is_shown]
    for name, want in zip(shown, showing.wants(), strict=True):
        if (want.items & own).bit_count() >= want.least:
            yield name


def _counted(block: str, possible: Collection[str], excluded: Collection[str]) -> tuple[int, int]:
    own = [name for name in possible if block_of(name) == block]
    return sum(name in excluded for name in own), len(own)
