"""Where the options of a board stand, by the records of its run."""

from collections.abc import Iterable

from termprobe.journal.records import OptionSet, Record


def positions_by(records: Iterable[Record]) -> dict[str, str]:
    """Return option -> position as `records` have set it last; only what they set is in it."""
    moved = [record for record in records if isinstance(record, OptionSet)]
    return {record.option: record.position for record in moved}
