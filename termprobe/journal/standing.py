"""Where the options of a board stand, and which steps come first, by the records of its run."""

from collections.abc import Iterable

from termprobe.journal.comes_after import ComesAfter
from termprobe.journal.known_fault import ToRepair
from termprobe.journal.records import Answered, OptionSet, Record, TakenBack


def positions_by(records: Iterable[Record]) -> dict[str, str]:
    """Return option -> position as `records` have set it last; only what they set is in it."""
    standing = StandingByRecords()
    for record in records:
        standing.take(record)
    return standing.positions


def to_be_asked_again(records: Iterable[Record]) -> tuple[str, ...]:
    """Return the ids of the steps that failed by what was to be repaired, in order.

    They are none once their answers were taken back, as they are when the run goes on.
    """
    steps: dict[str, None] = {}
    for record in records:
        match record:
            case ToRepair(explains=explains):
                steps.update(dict.fromkeys(explains))
            case TakenBack(step=step):
                steps.pop(step, None)
    return tuple(steps)


class StandingByRecords:
    """Takes records in order: where options stand, and what comes first."""

    def __init__(self) -> None:
        self.positions: dict[str, str] = {}
        """Option -> position, as in positions_by()."""
        self._repaired: dict[str, None] = {}
        self._after: dict[str, None] = {}

    def take(self, record: Record) -> None:
        """Take the next record."""
        match record:
            case OptionSet(option=option, position=position):
                self.positions[option] = position
            case ToRepair(explains=explains):
                self._repaired = dict.fromkeys(explains)
            case ComesAfter(first=first, sharing=sharing):
                self._after = dict.fromkeys((*first, *sharing))
            case Answered(step=step):
                self._repaired.pop(step, None)
                self._after.pop(step, None)

    @property
    def first(self) -> tuple[str, ...]:
        """The ids of the steps that come before all others and wait for an answer, in order.

        They are those that failed by what was repaired last, in the order in which they failed,
        then those that a run which comes after another one puts first.
        """
        return tuple(self._repaired | self._after)
