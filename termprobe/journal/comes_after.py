"""The record of which run of the same board a run comes after, and of what is asked first in it."""

from dataclasses import dataclass

from termprobe.journal.records import Record


@dataclass(frozen=True)
class ComesAfter(Record):
    """The run comes after another of the same board, for example after a repair.

    It tells what was shown there, so that what has changed is known without that file.
    """

    kind = "comes-after"
    run: str
    """The name of the other run's file, without its folder."""
    digest: str = ""
    """SHA-256 of that file's bytes as they were then, in hexadecimal."""
    begun: str = ""
    """When that run began: date and time of day, ISO 8601."""
    failed: tuple[str, ...] = ()
    """Ids of the steps that failed there, in the order of the plan."""
    passed: tuple[str, ...] = ()
    """Ids of those that passed there. A step that is not what it was there is in neither."""
    first: tuple[str, ...] = ()
    """Ids of the steps to be asked first: those that failed, each behind what it needs."""
    sharing: tuple[str, ...] = ()
    """Ids of those to be asked next, since they exercise one of the `blocks`."""
    blocks: tuple[str, ...] = ()
    """The blocks of the circuit in which the cause of what failed may lie, most likely first."""
