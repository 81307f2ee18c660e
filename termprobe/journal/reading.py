"""Reads run files back, whatever was cut off, flipped or added: every record that stood is found.

A line is eight hexadecimal digits (CRC-32 of the JSON that follows), a blank, one JSON object in
ASCII, a line feed.
"""

import json
import os
import re
import zlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import BinaryIO, NoReturn

from termprobe.errors import FileError
from termprobe.journal.added import Added
from termprobe.journal.codec import RecordError, decode
from termprobe.journal.lost import LostRecords, lost_at_end
from termprobe.journal.records import Header, Record, Resumed
from termprobe.journal.upgrade import upgraded

_START = re.compile(rb'[0-9a-f]{8} \{"')
MAX_BYTES = 250_000_000
"""What is read of it takes ten times as much memory."""
_PIECE = 1 << 20
_MOST_WITHIN = 32
"""A record is looked for over so many places that look as if the next began, and no further: a line
of nothing but such places is read as fast as others.
"""
_MAX_LINE = 16_000_000
_DECODER = json.JSONDecoder()
_SENT = re.compile(rb'\{"seq":(\d{1,9}),"t":[-+.\de]+,"at":"[^"\\]*","kind":"sent",')
"""The beginning of the JSON of a Sent, as it is written."""


@dataclass(frozen=True)
class Recording:
    """A run file as read back."""

    header: Header | None
    """The first record; None where it cannot be read."""
    records: tuple[Record, ...]
    """Every other record that can be read, in file order; a LostRecords where some are missing."""
    damages: tuple[str, ...]
    """What cannot be read: one line for each damaged place, with its offset in bytes, and for each
    gap in the numbering.
    """
    torn: int | None = None
    """Offset of a last line without line feed, where there is one."""


def read(path: str | os.PathLike[str]) -> Recording:
    """Return the Recording of the run file at `path`.

    Raises FileError where it cannot be opened, for nothing that stands in it.
    """
    return parse(read_bytes(path))


def read_bytes(path: str | os.PathLike[str]) -> bytes:
    """Return the bytes of the run file at `path`.

    Raises FileError where it cannot be opened, or is too large to be held in memory.
    """
    try:
        with open(path, "rb") as file:
            data = b"".join(_pieces(file))
    except OSError as error:
        words = f"{path}: must be a run file that can be read ({error.strerror})"
        raise FileError([words]) from None
    if len(data) > MAX_BYTES:
        raise FileError([f"{path}: must be a run file of at most {MAX_BYTES:,} bytes, not more"])
    return data


def _pieces(file: BinaryIO) -> Iterator[bytes]:
    """Yield what is in a file, and little beyond MAX_BYTES where it has more or has no end."""
    length = 0
    while length <= MAX_BYTES and (piece := file.read(_PIECE)):
        length += len(piece)
        yield piece


def header_in(data: bytes) -> Header | None:
    """Return the header in the bytes of a run file, as parse does; the records stay unread."""
    first = next((record for line in data.split(b"\n") for record in _records_in(line)[0]), None)
    if isinstance(first, Header):
        return first
    return None


def parse(data: bytes, leaves_out_sent: bool = False) -> Recording:
    """Return the Recording in the bytes of a run file.

    What was sent is most of a file, and where nothing is damaged no verdict is by it; it may be
    left out. Whoever does so with a damaged file is told by `damages` to read all of it.
    """
    found: list[Record] = []
    damages: list[str] = []
    damaged: list[bytes] = []
    offset = expected = 0
    for line in data.split(b"\n"):
        if leaves_out_sent and not damaged and _number_of_sent(line) == expected:
            expected += 1
            offset += len(line) + 1
            continue
        records, rest = _records_in(line)
        if rest is not None:
            damaged.append(line)
            what = f"a damaged or unfinished record of {len(line)} bytes was left out"
            damages.append(f"byte {offset}: {what}")
        for record in records:
            if not 0 <= record.seq - expected <= len(damaged):
                what = f"record {expected} must stand here, not {record.seq}"
                damages.append(f"byte {offset}: {what}")
            found += _lost_before(record, expected, damaged)
            found.append(record)
            expected, damaged = record.seq + 1, []
        if records and rest:
            damaged = [rest, b""]  # of how many records it is the rest nobody knows
        offset += len(line) + 1
    if damaged:
        found.append(lost_at_end(damaged))
    header = found.pop(0) if found and isinstance(found[0], Header) else None
    assert header is None or isinstance(header, Header)
    torn = None if not data or data.endswith(b"\n") else data.rfind(b"\n") + 1
    return Recording(header, tuple(found), tuple(damages), torn)


def _lost_before(record: Record, expected: int, damaged: Sequence[bytes]) -> list[Record]:
    """Return what stands for the records lost before `record`: a LostRecords, or nothing.

    Number `expected` should be the next. A program that goes on counts from the last record that it
    can read, so before a Resumed or Added the numbers tell nothing.
    """
    missing = record.seq - expected
    if missing > 0:
        return [LostRecords(records=missing)]
    if missing < 0:
        return [LostRecords()]
    if damaged and isinstance(record, Resumed | Added):
        return [lost_at_end(damaged)]
    return []


def _records_in(line: bytes) -> tuple[list[Record], bytes | None]:
    """Return (the records that can be read in `line`, what stands behind them).

    That is None where the line is as it was written. A lost line feed leaves two records in one
    line; both are found.
    """
    whole = _record(line)
    if whole or not line:
        return [whole] if whole else [], None
    records: list[Record] = []
    starts = [found.start() for found in _START.finditer(line)]
    limits = [*starts[_MOST_WITHIN:], *[len(line)] * _MOST_WITHIN]
    behind = 0
    for start, limit in zip(starts, limits, strict=False):
        data = _first_record(line[start:limit]) if start >= behind else b""
        record = _record(data)
        if record:
            records.append(record)
            behind = start + len(data)
    return records, line[behind:]


def _first_record(data: bytes) -> bytes:
    """Return of `data`, which begins as a record does, what may be one; nothing where none may."""
    try:
        return data[: 9 + _DECODER.raw_decode(data[9:].decode("latin-1"))[1]]
    except (ValueError, RecursionError):
        return b""


def _record(line: bytes) -> Record | None:
    """Return the record in `line`, or None where it is not exactly as it was written."""
    if line[8:9] != b" " or len(line) > _MAX_LINE or line[:8] != b"%08x" % zlib.crc32(line[9:]):
        return None
    try:
        document = json.loads(line[9:], parse_constant=_refuse)
        record = decode(upgraded(document)) if isinstance(document, dict) else None
    except (RecordError, ValueError, RecursionError):
        return None
    return record if record and record.seq >= 0 else None


def _number_of_sent(line: bytes) -> int | None:
    """Return the number of the Sent in `line`; None where it is none, or not as it was written."""
    begun = _SENT.match(line, 9)
    if begun is None or line[8:9] != b" " or line[:8] != b"%08x" % zlib.crc32(line[9:]):
        return None
    return int(begun[1])


def _refuse(word: str) -> NoReturn:
    raise ValueError(f"a number must be finite, not {word}")
