"""Run files: append-only JSON Lines, a check value in front of each record, written so that a crash loses nothing that stood.

A line is eight hexadecimal digits (CRC-32 of the JSON that follows), a blank, one JSON object in ASCII, a line feed. What
is in the file is never cut off or written again.
"""

import errno
import json
import os
import re
import zlib
from dataclasses import dataclass

from termprobe.errors import FileError, JournalError

FORMAT = 1
HEADER, RESUMED = "header", "resumed"
_START = re.compile(rb'[0-9a-f]{8} \{"')
_MAX_LINE = 16_000_000


@dataclass(frozen=True)
class Recording:
    """A run file as read back."""

    header: dict
    """The first record; empty where it cannot be read."""
    records: tuple[dict, ...]
    """Every other record that can be read, in file order."""
    damages: tuple[str, ...]
    """What cannot be read: one line for each damaged place, with its offset in bytes, and for each gap in the numbering."""


class Journal:
    """A run file open for writing, by one program at a time. Raises JournalError as soon as a record cannot be written."""

    def __init__(self, file, clock, recording=None, is_torn=False):
        self._file, self._clock = file, clock
        self._is_torn = is_torn
        self.header = recording.header if recording else {}
        self.records = list(recording.records) if recording else []
        """All records but the header, those read back included, in order."""
        self._next = 1 + max(
            (record["seq"] for record in (self.header, *self.records) if record), default=-1
        )

    @property
    def path(self):
        """Where the file is."""
        return self._file.name

    @classmethod
    def create(cls, path, header, clock):
        """Return a Journal on a new file whose first record holds the fields of `header`.

        Raises FileError where there can be no such file, JournalError where it cannot be written.
        """
        journal = cls(_open(path, "xb"), clock)
        try:
            journal.header = journal._write(HEADER, {"format": FORMAT, **header}, sync=True)
            _sync_folder(path)
        except BaseException:
            journal.close()
            raise
        return journal

    @classmethod
    def reopen(cls, path, clock):
        """Return a Journal that goes on with the run file at `path`, after a record `resumed` with the offset of a torn tail.

        Raises FileError where it is no run file or cannot be opened, JournalError where another program writes to it.
        """
        if not os.path.isfile(path):
            raise FileError([f"{path}: must be a run file, and there is no such file"])
        file = _open(path, "ab")
        try:
            recording, torn = _parse(_contents(path))
            if recording.header.get("format") != FORMAT:
                raise FileError(
                    [
                        f"{path}: must be a run file of format {FORMAT} with a readable first line; "
                        "it cannot be resumed"
                    ]
                )
            journal = cls(file, clock, recording, is_torn=torn is not None)
            journal.append(RESUMED, sync=True, torn=torn)
        except BaseException:
            file.close()
            raise
        return journal

    def append(self, kind, sync=False, **fields):
        """Write one record, bytes as hexadecimal; return it as a dict once the system has it, with `sync` once the disk has it."""
        record = self._write(kind, fields, sync)
        self.records.append(record)
        return record

    def _write(self, kind, fields, sync):
        record = {
            "seq": self._next,
            "t": round(self._clock.now_s(), 6),
            "at": self._clock.date(),
            "kind": kind,
            **fields,
        }
        line = encode(record)
        self._next += (
            1  # before the write: an interrupt right behind it must not give the number twice
        )
        self._put(b"\n" + line if self._is_torn else line, sync)
        self._is_torn = False
        return json.loads(line[9:])

    def _put(self, line, sync):
        try:
            if self._file.write(line) != len(line):
                self._is_torn = True
                raise JournalError(
                    f"{self.path}: the disk must take the run file, but it is full; all answers up to here are "
                    "kept. Make room, then go on with --resume"
                )
            if sync:
                getattr(os, "fdatasync", os.fsync)(self._file.fileno())
        except OSError as error:
            self._is_torn = True
            raise JournalError(
                f"{self.path}: the run file must be writable ({error.strerror}); all answers up to here are "
                "kept. Make room or put the disk right, then go on with --resume"
            ) from None

    def close(self):
        """Let go of the file; may be called twice."""
        self._file.close()


def read(path):
    """Return the Recording of the run file at `path`. Raises FileError where it cannot be opened, for nothing that stands in it."""
    return _parse(_contents(path))[0]


def encode(record):
    """Return `record` as the line that stands in a run file."""
    text = json.dumps(
        record, ensure_ascii=True, allow_nan=False, separators=(",", ":"), default=_hexadecimal
    ).encode("ascii")
    return b"%08x %s\n" % (zlib.crc32(text), text)


def _hexadecimal(value):
    if isinstance(value, (bytes, bytearray)):
        return bytes(value).hex()
    raise TypeError(f"a record holds text, numbers and bytes, not {type(value).__name__}")


def _open(path, mode):
    try:
        file = open(path, mode, buffering=0)  # pylint: disable=consider-using-with
    except FileExistsError:
        raise FileError(
            [
                f"{path}: must be a new file, and there is one already; "
                "choose another name, or go on with --resume"
            ]
        ) from None
    except OSError as error:
        raise FileError(
            [f"{path}: must be a file that can be written ({error.strerror}); try another folder"]
        ) from None
    try:
        _lock(file)
    except OSError:
        file.close()
        raise JournalError(f"{path}: another program is writing this run; end it first") from None
    return file


def _lock(file):
    try:
        import fcntl
    except ImportError:  # no such locks on this system; two writers are then for the user to avoid
        return
    fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)


def _sync_folder(path):
    """Make the name of a new file survive a power cut, where the system can do that to a folder."""
    if os.name != "posix":
        return
    try:
        descriptor = os.open(os.path.dirname(os.path.abspath(path)), os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)
    except OSError as error:
        if error.errno in (errno.ENOSPC, errno.EIO):
            raise JournalError(
                f"{path}: the folder must take a new file ({error.strerror})"
            ) from None


def _contents(path):
    try:
        with open(path, "rb") as file:
            return file.read()
    except OSError as error:
        raise FileError(
            [f"{path}: must be a run file that can be read ({error.strerror})"]
        ) from None


def _parse(data):
    """Return (Recording, offset of a last line without line feed or None)."""
    found, damages, offset, lost, expected = [], [], 0, 0, 0
    for line in data.split(b"\n"):
        records, is_damaged = _records_in(line)
        if is_damaged:
            lost += 1
            damages.append(
                f"byte {offset}: a damaged or unfinished record of {len(line)} bytes was left out"
            )
        for record in records:
            gap = record["seq"] - expected
            if gap > lost or gap < 0:
                damages.append(
                    f"byte {offset}: record {expected} must stand here, not {record['seq']}"
                )
            expected, lost = record["seq"] + 1, 0
            found.append(record)
        offset += len(line) + 1
    header = found.pop(0) if found and found[0]["kind"] == HEADER else {}
    torn = None if not data or data.endswith(b"\n") else data.rfind(b"\n") + 1
    return Recording(header, tuple(found), tuple(damages)), torn


def _records_in(line):
    """Return (the records that can be read in `line`, whether something else stood there).

    A lost line feed leaves two records in one line; both are found.
    """
    if not line or (record := _record(line)):
        return ([record] if line else []), False
    records, position = [], 0
    while match := _START.search(line, position):
        end = _end_of_json(line, match.start() + 9)
        record = end and _record(line[match.start() : end])
        if record:
            records.append(record)
        position = end if record else match.start() + 1
    return records, True


def _end_of_json(line, start):
    try:
        return start + json.JSONDecoder().raw_decode(line[start:].decode("latin-1"))[1]
    except (ValueError, RecursionError):
        return 0


def _record(line):
    """Return the record in `line`, or None where it is not exactly as it was written."""
    if line[8:9] != b" " or len(line) > _MAX_LINE or line[:8] != b"%08x" % zlib.crc32(line[9:]):
        return None
    try:
        record = json.loads(line[9:])
    except (ValueError, RecursionError):
        return None
    is_ours = (
        isinstance(record, dict)
        and type(record.get("seq")) is int
        and isinstance(record.get("kind"), str)
    )
    return record if is_ours else None
