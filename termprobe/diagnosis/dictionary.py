"""The fault dictionary: what each look of a plan shows on a board with each fault.

Bits of single cells, of which a board has thousands, are not played one by one: what they show
comes of what a good board keeps in each cell.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import partial

from termprobe.board.faults.catalogue import catalogue
from termprobe.diagnosis.evident import Evident, differing, evident_in, single_dots, stuck_bits
from termprobe.diagnosis.playing import (
    Performance,
    Theatre,
    chains_of,
    kept_codes,
    looks_of,
)
from termprobe.diagnosis.processes import TellCount, one_by_one, over_processors, told_nobody
from termprobe.plan.model import Plan
from termprobe.profile.model import Profile


@dataclass(frozen=True)
class FaultDictionary:
    """What the looks of one plan show, fault by fault."""

    looks: tuple[str, ...]
    """Ids of the looks that are fitted, in the order of the plan."""
    good: Performance
    """Of a board without a fault."""
    faults: Mapping[str, Performance]
    """By the name of each fault that a board can have and that is listed."""
    stuck_bits: frozenset[Evident]
    """By which looks bits of single RAM cells are shown that always read the same."""
    single_dots: Mapping[int, Evident] = field(default_factory=dict)
    """By which looks a single dot that is wrong in its drawing is shown, for each code."""

    @property
    def untrusted(self) -> int:
        """The looks that a good board fails, as bits; they tell nothing of a fault."""
        return differing(self.good.in_order) | differing(self.good.alone)

    def evident(self) -> Iterator[Evident]:
        """Yield by which looks each fault is shown, once for each way of seeing."""
        yield from self.stuck_bits
        yield from self.single_dots.values()
        yield from evident_in(set(self.faults.values()))


def fault_dictionary(
    profile: Profile, plan: Plan, told: TellCount = told_nobody, is_beside: bool = False
) -> FaultDictionary:
    """Return the FaultDictionary of `plan` for boards of `profile`.

    `told` is told how many faults of how many have been played. What `is_beside` something else is
    done without another process. Raise UsageError where the profile has no circuit.
    """
    chains = chains_of(plan)
    names = tuple(catalogue(profile))
    begin = partial(_player, profile, plan)
    play_all = over_processors
    if is_beside:
        play_all = one_by_one
    performances = play_all(begin, names, told)
    theatre = Theatre(profile, chains)
    return FaultDictionary(
        looks_of(chains),
        theatre.good,
        dict(zip(names, performances, strict=True)),
        stuck_bits(kept_codes(profile, chains)),
        single_dots(profile, theatre.stood),
    )


def _player(profile: Profile, plan: Plan) -> Callable[[str], Performance]:
    """Return what makes of the name of a fault the Performance of a board that has it."""
    faults, theatre = catalogue(profile), Theatre(profile, chains_of(plan))
    return lambda name: theatre.perform(faults[name])
