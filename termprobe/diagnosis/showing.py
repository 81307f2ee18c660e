"""Which steps of a plan show each fault: looks by their screens, presses by what is heard.

What only questions, readings, replies and typed words could show is shown by none.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from termprobe.board.faults.catalogue import catalogue
from termprobe.board.faults.dots import BLOCKS as DOT_BLOCKS
from termprobe.board.faults.model import block_of
from termprobe.board.wiring import wire
from termprobe.diagnosis.cheapest import Want
from termprobe.diagnosis.cover import numbers_of
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.evident import differing
from termprobe.diagnosis.kept import once_a_profile
from termprobe.diagnosis.key_coverage import PressesShow, shown_by_presses
from termprobe.diagnosis.playing import Performance, has_part_in_display
from termprobe.diagnosis.shown import Sight
from termprobe.diagnosis.visibility import Visibility, class_of, less_visible
from termprobe.plan.model import KeyPress, Plan
from termprobe.profile.model import Profile


@dataclass(frozen=True)
class FaultShown:
    """What the steps of a plan show of one fault."""

    name: str
    is_of_display: bool
    """It has a part in which characters a screen shows."""
    looks: Mapping[int, Visibility]
    """By the number of each look that shows it for certain how easily it is seen there."""
    performance: Performance
    presses: PressesShow | None
    is_of_dots: bool = False
    """It has a part in how characters are drawn, and none in which they are."""

    @property
    def signature(self) -> object:
        """The same for faults that no step tells apart."""
        return self.performance, self.presses and self.presses.sends

    @property
    def is_shown(self) -> bool:
        """Whether any step shows it for certain, or some presses together."""
        return bool(self.looks) or self.presses is not None


@dataclass(frozen=True)
class Showing:
    """What a plan shows of each fault of the catalogue."""

    looks: tuple[str, ...]
    """Ids, by number."""
    presses: tuple[str, ...]
    faults: tuple[FaultShown, ...]

    @cached_property
    def steps(self) -> tuple[str, ...]:
        """Ids of the looks, then of the presses: a want names them by their numbers here."""
        return self.looks + self.presses

    def wants(self) -> Iterator[Want]:
        """Yield for each fault that is shown how many of which steps are needed to show it."""
        for fault in self.faults:
            if fault.is_shown:
                yield self._want(fault)

    def _want(self, fault: FaultShown) -> Want:
        looks = sum(1 << number for number in fault.looks)
        if fault.presses is None:
            return Want(looks, 1)
        items, least = fault.presses.want
        if looks and least > 1:
            return Want(looks, 1)
        return Want(looks | items << len(self.looks), least)


def showing_of(dictionary: FaultDictionary, plan: Plan, profile: Profile) -> Showing:
    """Return the Showing of `plan`, of which `dictionary` tells, for boards of `profile`."""
    steps = [step for step in plan.steps if isinstance(step, KeyPress) and not step.not_fitted]
    names = tuple(catalogue(profile))
    of_presses = shown_by_presses(profile, [step.press for step in steps], names)
    of_display = names_of_display(profile)
    of_dots = {name for name in names if block_of(name) in DOT_BLOCKS}
    sees = _Eye(dictionary, plan)
    faults = [
        FaultShown(
            name,
            name in of_display,
            sees.looks_that_show(name),
            dictionary.faults[name],
            of_presses.get(name),
            name in of_dots,
        )
        for name in names
    ]
    return Showing(dictionary.looks, tuple(step.id for step in steps), tuple(faults))


@once_a_profile
def names_of_display(profile: Profile) -> frozenset[str]:
    """Return the names of the faults that have a part in which characters a screen shows."""
    healthy, found = wire(profile), set()
    for name, fault in catalogue(profile).items():
        faulty = wire(profile)
        fault.apply(faulty)
        if has_part_in_display(faulty, healthy):
            found.add(name)
    return frozenset(found)


class _Eye:
    """Tells at which looks of one plan a fault is seen, and how easily."""

    def __init__(self, dictionary: FaultDictionary, plan: Plan) -> None:
        self._dictionary = dictionary
        self._size = plan.rows, plan.columns

    def looks_that_show(self, name: str) -> dict[int, Visibility]:
        """Return the looks that differ however they are played, of those that can be trusted.

        Of both ways of playing each has the class that is missed more easily.
        """
        in_order, alone = self._dictionary.faults[name]
        surely = differing(in_order) & differing(alone) & ~self._dictionary.untrusted
        return {
            number: less_visible(self._class(in_order[number]), self._class(alone[number]))
            for number in numbers_of(surely)
        }

    def _class(self, shown: Sight) -> Visibility:
        return class_of(shown, *self._size)
