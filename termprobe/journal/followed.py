"""What is worked out of a run's records one after the other, kept for when there are more. Pure."""

from collections.abc import Callable, Sequence
from typing import Generic, Protocol, TypeVar

from termprobe.journal.records import Record


class Taking(Protocol):
    """Works something out of records that it takes in order."""

    def take(self, record: Record) -> None: ...


Taker = TypeVar("Taker", bound=Taking)


class Followed(Generic[Taker]):
    """Lets one that `begin` makes take each record of a run once."""

    def __init__(self, begin: Callable[[], Taker]) -> None:
        self._begin, self._taker = begin, begin()
        self._taken = 0
        self._last: Record | None = None

    def after(self, records: Sequence[Record]) -> Taker:
        """Return what has taken all of `records`, and none beside them; it is not to be changed.

        Of records that go on from those of the time before only the new ones are taken.
        """
        if not self._goes_on(records):
            self._taker, self._taken = self._begin(), 0
        for record in records[self._taken :]:
            self._taker.take(record)
            self._last = record
        self._taken = len(records)
        return self._taker

    def _goes_on(self, records: Sequence[Record]) -> bool:
        """Return whether `records` begin with all that were taken, as far as the last one tells."""
        if not self._taken:
            return True
        return len(records) >= self._taken and records[self._taken - 1] is self._last
