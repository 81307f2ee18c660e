"""What is missing in a run file, told among the records that can be read."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from termprobe.journal.records import Record

_ONE_RECORD = re.compile(rb'[0-9a-f]{8} \{"seq":\d+,[ -~]*')
_SHORTEST_RECORD = 40
"""No record is a line of fewer bytes."""


@dataclass(frozen=True)
class LostRecords(Record):
    """Records stood here that cannot be read; no file holds it, readers put it in."""

    kind = "lost"
    records: int | None = None
    """How many; None where that is not known."""


def lost_at_end(lines: Sequence[bytes]) -> LostRecords:
    """Return the LostRecords that stands for damaged `lines` at the end of a sitting.

    There no record behind them tells by its number how many are lost.
    """
    if len(lines) == 1 and _is_one_record(lines[0]):
        return LostRecords(records=1)
    return LostRecords()


def _is_one_record(line: bytes) -> bool:
    """Return whether `line` is a single record that was damaged or not written whole."""
    if len(line) < _SHORTEST_RECORD:
        return True
    return _ONE_RECORD.fullmatch(line) is not None and line.count(b'"seq":') == 1
