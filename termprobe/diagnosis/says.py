"""What a run says of its board, as one digest: two runs that say the same have the same causes."""

import hashlib
from collections.abc import Iterator, Sequence

from termprobe.diagnosis.accounts import Case
from termprobe.journal.records import Answered, OptionSet, Record, Sent, StepBegun


def says(case: Case) -> str:
    """Return a digest of all that a diagnosis of the run goes by.

    Board and link, dates and the moments of bytes are no part of it.
    """
    told = hashlib.sha256(case.plan.hash.encode())
    told.update(repr(case.profile).encode())
    told.update(repr((case.observations, case.came, case.rates)).encode())
    for part in _order(case.records):
        told.update(part.encode() + b"\n")
    return told.hexdigest()


def _order(records: Sequence[Record]) -> Iterator[str]:
    """Yield what was sent, set and answered, in order."""
    for record in records:
        match record:
            case Sent(step=step, data=data):
                yield f"sent {step} {data.hex()}"
            case OptionSet(option=option, position=position):
                yield f"set {option} {position}"
            case StepBegun(step=step) | Answered(step=step):
                yield f"{record.kind} {step}"
