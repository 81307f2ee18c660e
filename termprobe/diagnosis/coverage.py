"""What the looks of a plan prove: which faults of the display they show, and which they miss."""

from collections.abc import Mapping
from dataclasses import dataclass

from termprobe.board.faults.catalogue import catalogue
from termprobe.board.faults.model import block_of
from termprobe.board.wiring import wire
from termprobe.diagnosis.cheapest import Want, cheapest_choice
from termprobe.diagnosis.cover import numbers_of
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.evident import differing
from termprobe.diagnosis.playing import Performance, has_part_in_display
from termprobe.profile.model import Profile


@dataclass(frozen=True)
class BlockCoverage:
    """Faults of one block of the circuit."""

    faults: int
    detected: int
    """Of these, how many a look shows."""

    @property
    def share(self) -> float:
        """From 0 to 1."""
        return self.detected / self.faults


@dataclass(frozen=True)
class Coverage:
    """What the looks of a plan show of the faults that have a part in the display."""

    detected: tuple[str, ...]
    """Names of the faults that a look shows, however it is played."""
    missed: tuple[str, ...]
    classes: int
    """How many of the faults detected can be told apart by what is seen."""
    by_block: Mapping[str, BlockCoverage]
    smallest_set: tuple[str, ...]
    """Ids of the fewest looks that show all that are detected."""
    is_smallest: bool
    """Whether it is proven that no fewer do."""

    @property
    def faults(self) -> int:
        """How many faults have a part in the display."""
        return len(self.detected) + len(self.missed)


def coverage_of(dictionary: FaultDictionary, profile: Profile) -> Coverage:
    """Return the Coverage by the plan of which `dictionary` tells, for boards of `profile`."""
    names = _faults_of_display(profile)
    showing = {name: _surely(dictionary.faults[name]) & ~dictionary.untrusted for name in names}
    detected = tuple(name for name in names if showing[name])
    fewest = cheapest_choice(
        [1] * len(dictionary.looks), [Want(showing[name], 1) for name in detected]
    )
    return Coverage(
        detected=detected,
        missed=tuple(name for name in names if not showing[name]),
        classes=len({dictionary.faults[name] for name in detected}),
        by_block=_by_block(names, detected),
        smallest_set=tuple(dictionary.looks[number] for number in numbers_of(fewest.items)),
        is_smallest=fewest.is_cheapest,
    )


def _faults_of_display(profile: Profile) -> tuple[str, ...]:
    healthy, found = wire(profile), []
    for name, fault in catalogue(profile).items():
        faulty = wire(profile)
        fault.apply(faulty)
        if has_part_in_display(faulty, healthy):
            found.append(name)
    return tuple(found)


def _surely(performance: Performance) -> int:
    return differing(performance.in_order) & differing(performance.alone)


def _by_block(names: tuple[str, ...], detected: tuple[str, ...]) -> dict[str, BlockCoverage]:
    """Return block -> its coverage, the worst first."""
    all_of = [block_of(name) for name in names]
    shown_of = [block_of(name) for name in detected]
    found = {
        block: BlockCoverage(all_of.count(block), shown_of.count(block))
        for block in dict.fromkeys(all_of)
    }
    return dict(sorted(found.items(), key=lambda item: item[1].share))
