"""Where the options of a board stand, and what was to be repaired, by the records of its run."""

from collections.abc import Iterable

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


def repaired_steps(records: Iterable[Record]) -> tuple[str, ...]:
    """Return the ids of the steps that failed by what was repaired last and wait to be asked again.

    They are in the order in which they failed.
    """
    steps: dict[str, None] = {}
    for record in records:
        match record:
            case ToRepair(explains=explains):
                steps = dict.fromkeys(explains)
            case Answered(step=step):
                steps.pop(step, None)
    return tuple(steps)
