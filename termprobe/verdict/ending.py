"""The end of a run file: where it is missing, what was answered last may be missing too. Pure."""

from collections.abc import Sequence
from dataclasses import replace

from termprobe.journal.records import Answered, Finished, Record, Stopped, TakenBack
from termprobe.verdict.model import INCOMPLETE, PASS, RunVerdict


def has_end(records: Sequence[Record]) -> bool:
    """Return whether a last record stands behind the last answer, or none was given."""
    kinds = Answered | TakenBack | Finished | Stopped
    telling = [record for record in records if isinstance(record, kinds)]
    return not telling or isinstance(telling[-1], Finished | Stopped)


def as_filed(verdict: RunVerdict, records: Sequence[Record]) -> RunVerdict:
    """Return the verdict of a run whose file holds `records`: without an end none passes."""
    if verdict.verdict == PASS and not has_end(records):
        return replace(verdict, verdict=INCOMPLETE)
    return verdict
