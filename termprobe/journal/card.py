"""The record of a run that was filled in from a card, with nothing on a link."""

from collections.abc import Iterable
from dataclasses import dataclass

from termprobe.journal.records import Record

CARD = "card"
"""The observer of what was written on one."""


@dataclass(frozen=True)
class FilledFromCard(Record):
    """What follows, up to the next end, was typed off a card; its dates are those written there."""

    kind = "card"
    typed_in: str
    """Date and time of day at which the run was made of it, ISO 8601."""
    digest: str = ""
    """SHA-256 of the form as it was typed, in hexadecimal."""


def is_from_card(records: Iterable[Record]) -> bool:
    """Return whether a run, or a part of it, was filled in from a card."""
    return any(isinstance(record, FilledFromCard) for record in records)
