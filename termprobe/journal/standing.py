"""Where the options of a board stand, and which steps come first, by the records of its run."""

from collections.abc import Iterable

from termprobe.journal.comes_after import ComesAfter
from termprobe.journal.known_fault import ToRepair
from termprobe.journal.records import Answered, OptionSet, Record, TakenBack


def positions_by(records: Iterable[Record]) -> dict[str, str]:
    """Return option -> position as `records` have set it last; only what they set is in it."""
    moved = [record for record in records if isinstance(record, OptionSet)]
    return {record.option: record.position for record in moved}


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


def asked_first(records: Iterable[Record]) -> tuple[str, ...]:
    """Return the ids of the steps that come before all others and wait for an answer, in order.

    They are those that failed by what was repaired last, in the order in which they failed, then
    those that a run which comes after another one puts first.
    """
    repaired: dict[str, None] = {}
    after: dict[str, None] = {}
    for record in records:
        match record:
            case ToRepair(explains=explains):
                repaired = dict.fromkeys(explains)
            case ComesAfter(first=first, sharing=sharing):
                after = dict.fromkeys((*first, *sharing))
            case Answered(step=step):
                repaired.pop(step, None)
                after.pop(step, None)
    return tuple(repaired | after)
