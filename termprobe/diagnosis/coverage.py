"""What a plan proves of a board: the faults that it shows, misses, and that nothing shows."""

from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass

from termprobe.board.faults.catalogue import catalogue
from termprobe.board.faults.model import block_of
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.human_coverage import HumanCoverage, human_coverage
from termprobe.diagnosis.showing import FaultShown, Showing, showing_of
from termprobe.diagnosis.smallest_steps import SmallestSteps, smallest_steps
from termprobe.diagnosis.undetectable import undetectable
from termprobe.diagnosis.visibility import USUAL_MISS
from termprobe.plan.covered import asked_of
from termprobe.plan.model import Plan, Step
from termprobe.profile.model import Profile


@dataclass(frozen=True)
class PartCoverage:
    """Faults of one part of a board."""

    faults: int
    detected: int
    """Of these, how many the plan shows for certain."""
    undetectable: int = 0
    """How many make no difference, whatever is tried."""

    @property
    def missed(self) -> int:
        """How many could be shown, and are not."""
        return self.faults - self.undetectable - self.detected

    @property
    def share(self) -> float:
        """How many are shown of those that can be: from 0 to 1, and 1 where none can be."""
        if self.faults == self.undetectable:
            return 1.0
        return self.detected / (self.faults - self.undetectable)


@dataclass(frozen=True)
class Coverage:
    """What a plan shows of the faults of the catalogue."""

    detected: tuple[str, ...]
    """Names of the faults that a step shows, whatever was sent before."""
    missed: tuple[str, ...]
    undetectable: Mapping[str, str]
    """Name of each fault that makes no difference -> why, in words."""
    classes: int
    """How many of the faults detected can be told apart by what is seen and heard."""
    by_block: Mapping[str, PartCoverage]
    """The worst first."""
    display: PartCoverage
    """The faults that have a part in which characters a screen shows of what is received."""
    dots: PartCoverage
    """Those that have a part in how these are drawn, which only eyes see."""
    beside: PartCoverage
    """The others: of the keyboard and of what the board sends."""
    human: HumanCoverage
    shows_all_bits: bool
    """Whether each bit of each RAM cell of the screen is shown, at whichever level it is stuck."""
    shows_all_dots: bool | None
    """Whether each dot of each drawing is shown that is wrong in it alone; None where nothing is
    known of dots."""
    smallest: SmallestSteps

    @property
    def faults(self) -> int:
        """How many faults the catalogue has."""
        return len(self.detected) + len(self.missed) + len(self.undetectable)


CostOf = Callable[[Step], int]
"""What a step costs, in whatever unit: more than 0."""


def one_each(_step: Step) -> int:
    """Return 1: each step costs as much as any other."""
    return 1


def coverage_of(
    dictionary: FaultDictionary,
    plan: Plan,
    profile: Profile,
    miss: Mapping[str, float] = USUAL_MISS,
    cost_of: CostOf = one_each,
) -> Coverage:
    """Return the Coverage by `plan`, of which `dictionary` tells, for boards of `profile`.

    Looks of `plan` that others cover are not seen by the builder. `miss` is as for human_coverage;
    the smallest set is the one of least cost by `cost_of`. Raise UsageError where there is no
    circuit.
    """
    showing = showing_of(dictionary, plan, profile)
    faults, listed = showing.faults, catalogue(profile)
    shown = [fault for fault in faults if fault.is_shown]
    unseen = [fault.name for fault in faults if not fault.is_shown]
    reasons = undetectable(profile, [listed[name] for name in unseen])
    of_display = [fault for fault in faults if fault.is_of_display]
    of_dots = [fault for fault in faults if fault.is_of_dots]
    to_be_seen = [fault for fault in (*of_display, *of_dots) if fault.name not in reasons]
    return Coverage(
        detected=tuple(fault.name for fault in shown),
        missed=tuple(name for name in unseen if name not in reasons),
        undetectable=reasons,
        classes=len({fault.signature for fault in shown}),
        by_block=_by_block(faults, reasons),
        display=_part(of_display, reasons),
        dots=_part(of_dots, reasons),
        beside=_part(list(filter(_is_beside, faults)), reasons),
        human=human_coverage(to_be_seen, _asked(showing, plan), miss),
        shows_all_bits=_shows_all_bits(dictionary),
        shows_all_dots=_shows_all_dots(dictionary),
        smallest=smallest_steps(plan, showing.steps, showing.wants(), cost_of),
    )


def _is_beside(fault: FaultShown) -> bool:
    return not fault.is_of_display and not fault.is_of_dots


def _asked(showing: Showing, plan: Plan) -> set[int]:
    """Return the numbers of the looks that are asked on a good board."""
    fitted = [step for step in plan.steps if not step.not_fitted]
    asked = {step.id for step in asked_of(fitted)}
    return {number for number, look in enumerate(showing.looks) if look in asked}


def _by_block(faults: Iterable[FaultShown], reasons: Collection[str]) -> dict[str, PartCoverage]:
    """Return block -> its coverage, the worst first, of equals the one that misses most."""
    blocks: dict[str, list[FaultShown]] = {}
    for fault in faults:
        blocks.setdefault(block_of(fault.name), []).append(fault)
    found = {block: _part(members, reasons) for block, members in blocks.items()}
    return dict(sorted(found.items(), key=lambda item: (item[1].share, -item[1].missed)))


def _part(faults: Collection[FaultShown], reasons: Collection[str]) -> PartCoverage:
    return PartCoverage(
        len(faults),
        sum(fault.is_shown for fault in faults),
        sum(fault.name in reasons for fault in faults),
    )


def _shows_all_bits(dictionary: FaultDictionary) -> bool:
    if not dictionary.stuck_bits:
        return False
    return all(surely & ~dictionary.untrusted for surely, _ in dictionary.stuck_bits)


def _shows_all_dots(dictionary: FaultDictionary) -> bool | None:
    if not dictionary.single_dots:
        return None
    return all(surely & ~dictionary.untrusted for surely, _ in dictionary.single_dots.values())
