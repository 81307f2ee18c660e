"""The part of a run that must be played again: where more was told than yes or no."""

from collections.abc import Iterable, Iterator, Set
from dataclasses import replace

from termprobe.diagnosis.accounts import Case
from termprobe.diagnosis.answers import LookAnswer, Observation, TypedAnswer
from termprobe.journal.records import Answered, OptionSet, Record, Sent, StepBegun


def is_replayed(one: Observation) -> bool:
    """Return whether an answer says more than yes or no, so that screens are to be compared."""
    if isinstance(one, LookAnswer):
        return one.codes is not None or one.marks is not None
    return isinstance(one, TypedAnswer)


def is_more_told(case: Case) -> bool:
    """Return whether any answer says more than yes or no."""
    return any(map(is_replayed, case.observations))


def told_alone(case: Case) -> Case:
    """Return the part of `case` that is to be played again.

    Of a run in which screens were read it is all: what was sent before may matter to them. Where
    eyes marked some, it is what was sent for those.
    """
    told = tuple(filter(is_replayed, case.observations))
    if any(isinstance(one, LookAnswer) and one.codes is not None for one in told):
        return case
    steps = {one.step_id for one in told}
    return replace(case, observations=told, records=tuple(_of_steps(case.records, steps)))


def _of_steps(records: Iterable[Record], steps: Set[str]) -> Iterator[Record]:
    """Yield what was sent while one of `steps` was in progress, its answers, and all options."""
    begun = ""
    for record in records:
        match record:
            case StepBegun():
                begun = record.step
                if begun in steps:
                    yield record
            case Sent() if begun in steps:
                yield record
            case Answered() if record.step in steps:
                yield record
            case OptionSet():
                yield record


def bytes_sent(records: Iterable[Record]) -> int:
    """Return how many bytes were sent."""
    return sum(len(record.data) for record in records if isinstance(record, Sent))
