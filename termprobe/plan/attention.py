"""Looks that are wrong on purpose: which ones, and what is sent for them. Pure.

A few characters are altered in at least three bits each: no single fault of lines makes them right
again. All else is sent as it is, so that the cursor goes where it must.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from random import Random

from termprobe.plan.model import Look, Plan, Step
from termprobe.profile.model import Profile
from termprobe.terminal.reference import Reference
from termprobe.terminal.screen import Screen, differences

LONGEST = 8
"""So many characters in a row are altered at most."""
MASKS = tuple(mask for mask in range(32) if mask.bit_count() >= 3)
"""The bits that are turned over; those above tell letters, digits and controls apart, and stay."""
MOST_ALTERED = 20
"""So many times others are tried."""
FIRST_VISIBLE, LAST_VISIBLE = 0x21, 0x7E


def wrong_looks(
    plan: Plan, profile: Profile, rate: float, seed: int, prefix: str
) -> Mapping[str, Look]:
    """Return id of a look -> that look as it is sent wrong, for a share `rate` of the looks.

    The wrong one is called by `prefix` and the look's id, and expects the screen that it makes.
    Which looks they are, and what is wrong, depends on `seed` and the look alone.
    """
    found: dict[str, Look] = {}
    for step in plan.steps:
        chance = Random(f"{seed}/{step.id}")
        if isinstance(step, Look) and step.expected is not None and chance.random() < rate:
            wrong = _wrong(plan, profile, step, chance)
            if wrong is not None:
                found[step.id] = replace(wrong, id=f"{prefix}{step.id}", hash="", covered_by=())
    return found


def _wrong(plan: Plan, profile: Profile, step: Look, chance: Random) -> Look | None:
    """Return `step` with other characters; None where none can be seen to be wrong."""
    texts = [number for number, group in enumerate(step.groups) if _is_text(group.data)]
    before = _chain_before(plan, step)
    for _ in range(MOST_ALTERED if texts else 0):
        groups = list(step.groups)
        number = chance.choice(texts)
        groups[number] = replace(groups[number], data=_altered(groups[number].data, chance))
        shown = _shown(profile, [*before, replace(step, groups=tuple(groups))])
        if step.expected is not None and _differs(step.expected, shown):
            return replace(step, groups=tuple(groups), expected=shown)
    return None


def _is_text(data: bytes) -> bool:
    """Return whether all of `data` is printed, and some of it can be seen."""
    return any(map(_is_visible, data)) and all(code == 0x20 or _is_visible(code) for code in data)


def _is_visible(code: int) -> bool:
    return FIRST_VISIBLE <= code <= LAST_VISIBLE


def _altered(data: bytes, chance: Random) -> bytes:
    """Return `data` with some visible characters in a row altered, each in the same bits."""
    start = chance.choice([index for index, code in enumerate(data) if _is_visible(code)])
    end, mask = start + chance.randint(1, LONGEST), chance.choice(MASKS)
    altered = bytearray(data)
    for index, code in enumerate(data[start:end], start):
        if _is_visible(code) and _is_visible(code ^ mask):
            altered[index] = code ^ mask
    return bytes(altered)


def _chain_before(plan: Plan, step: Look) -> Sequence[Step]:
    """Return the steps from whose screen `step` goes on."""
    first = index = plan.index[step.id]
    while plan.steps[first].continues and first:
        first -= 1
    return plan.steps[first:index]


def _shown(profile: Profile, steps: Sequence[Step]) -> Screen:
    reference = Reference(profile)
    for step in steps:
        reference.set_options(dict(step.settings))
        reference.feed(step.data)
    return reference.screen()


def _differs(wanted: Screen, shown: Screen) -> bool:
    """Return whether characters differ, and nothing else."""
    is_as_long = wanted.cursor in (None, shown.cursor)
    return is_as_long and bool(differences(wanted.rows, shown.rows))
