"""The record of a file that was opened only to note something, and what is of the sittings."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from termprobe.journal.records import CountingRecord, Record, Resumed


@dataclass(frozen=True)
class Added(CountingRecord):
    """What follows was noted afterwards: no board was tried until a `resumed` says so."""

    kind = "added"
    torn: int | None = None
    """Offset of a last line that was not written whole, where there was one."""
    format: int = 1
    """Of the records from here on."""


def of_sittings(records: Iterable[Record]) -> Iterator[Record]:
    """Yield the records that were written while the board was tried, in order."""
    is_afterwards = False
    for record in records:
        match record:
            case Added():
                is_afterwards = True
            case Resumed():
                is_afterwards = False
        if not is_afterwards:
            yield record
