"""What one fault leaves open of the screens that were read, and which other fault would fit that.

It is compared by regions: those in which a screen is not as the first fault would show it, and
those in which the second one alone would change it.
"""

from collections.abc import Callable, Sequence

from termprobe.board.faults.catalogue import fault as fault_named
from termprobe.diagnosis.accounts import Account, Case
from termprobe.diagnosis.answers import LookAnswer
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.regions import touched
from termprobe.diagnosis.replay import replay


def fits_what_is_left(
    case: Case, leader: Account, dictionary: FaultDictionary
) -> Callable[[Account], float]:
    """Return what tells how well another cause fits what `leader` leaves open; 0 for not at all.

    `leader` must be a fault of the catalogue, and all screens of `case` must have been read.
    """
    read = [one for one in case.observations if isinstance(one, LookAnswer) and one.codes]
    left = _left_open(case, leader, read)
    numbers = {look: number for number, look in enumerate(dictionary.looks)}
    looks = [numbers[one.step_id] for one in read]

    def likeness(other: Account) -> float:
        performance = dictionary.faults.get(other.cause.name)
        if performance is None:
            return 0.0
        shown = [performance.in_order[look].where or 0 for look in looks]
        return sum(map(_likeness, left, shown))

    return likeness


def _left_open(case: Case, leader: Account, read: Sequence[LookAnswer]) -> list[int]:
    """Return in which regions each screen is not as a board with the fault of `leader` shows it."""
    fault = fault_named(case.profile, leader.cause.name)
    shown = replay(case.profile, case.plan, case.records, read, fault)
    return [
        touched(one.codes or b"", seen.codes, one.columns)
        for one, seen in zip(read, shown, strict=True)
    ]


def _likeness(first: int, second: int) -> float:
    """Return which share of the regions in either is in both; 0 where there are none."""
    either = (first | second).bit_count()
    return (first & second).bit_count() / max(either, 1)
