"""Run files being written, so that a crash loses nothing that stood.

A file is append-only, with a check value in front of each record. What is in it is never cut off or
written again. reading.py says how a line looks.
"""

import errno
import io
import json
import os
import zlib
from collections.abc import Iterable
from dataclasses import replace
from typing import TypeVar

from termprobe.clock import Clock
from termprobe.errors import FileError, JournalError
from termprobe.journal import codec
from termprobe.journal.added import Added
from termprobe.journal.reading import parse, read_bytes
from termprobe.journal.records import (
    FORMAT,
    Answered,
    CountingRecord,
    Header,
    Record,
    Resumed,
    TakenBack,
)

RUN_SUFFIX = ".run.jsonl"
"""How the name of a run file ends."""
PAGE_BYTES = 4096
"""A kill can end a write where a page of the file does, and nowhere else: the smallest page that
systems have, found by killing writers on Linux, and of common practice elsewhere."""
_Kind = TypeVar("_Kind", bound=Record)


class Journal:
    """A run file open for writing, by one program at a time.

    Raises JournalError as soon as a record cannot be written.
    """

    def __init__(
        self,
        path: str | os.PathLike[str],
        file: io.FileIO,
        clock: Clock,
        header: Header,
        records: Iterable[Record] = (),
        is_torn: bool = False,
    ) -> None:
        self.path = os.fspath(path)
        self._file, self._clock = file, clock
        self._is_torn = is_torn
        self.header = header
        self.records: list[Record] = list(records)
        """All records but the header, those read back included, in order."""
        self._next = 1 + max(record.seq for record in (header, *self.records))
        self._answers = sum(isinstance(record, Answered | TakenBack) for record in self.records)

    @classmethod
    def create(cls, path: str | os.PathLike[str], header: Header, clock: Clock) -> "Journal":
        """Return a Journal on a new file whose first record is `header`.

        Raises FileError where there can be no such file, JournalError where it cannot be written.
        """
        journal = cls(path, _open(path, "xb"), clock, header)
        try:
            journal.header = journal._write(replace(header, format=FORMAT))
            _sync_folder(path)
        except BaseException:
            journal.close()
            raise
        return journal

    @classmethod
    def reopen(
        cls, path: str | os.PathLike[str], clock: Clock, resumed: Resumed | Added | None = None
    ) -> "Journal":
        """Return a Journal that goes on with the run file at `path`.

        Its first new record is `resumed`, with the offset of a torn tail. Raises FileError where it
        is no run file or cannot be opened, JournalError where another program writes to it.
        """
        resumed = resumed or Resumed()
        if not os.path.isfile(path):
            raise FileError([f"{path}: must be a run file, and there is no such file"])
        file = _open(path, "ab")
        try:
            recording = parse(read_bytes(path))
            header = recording.header
            if header is None or header.format not in range(1, FORMAT + 1):
                raise _not_resumed(path, header)
            is_torn = recording.torn is not None
            journal = cls(path, file, clock, header, recording.records, is_torn)
            journal.append(replace(resumed, torn=recording.torn, format=FORMAT))
        except BaseException:
            file.close()
            raise
        return journal

    def append(self, record: _Kind) -> _Kind:
        """Write one record; return it, with number and times, once the system has it.

        One whose kind is synced is returned once the disk has it.
        """
        written = self._write(record)
        self.records.append(written)
        return written

    def _write(self, record: _Kind) -> _Kind:
        now_s, date = round(self._clock.now_s(), 6), self._clock.date()
        record = self._counting(replace(record, seq=self._next, t=now_s, at=date))
        line = encode(record)
        # Before the write: an interrupt right behind it must not give the number twice.
        self._next += 1
        self._answers += isinstance(record, Answered | TakenBack)
        self._put(b"\n" + line if self._is_torn else line, record.is_synced)
        self._is_torn = False
        return record

    def _counting(self, record: _Kind) -> _Kind:
        """Return `record` with the number of answers before it, where it tells that."""
        if isinstance(record, CountingRecord):
            return replace(record, answers=self._answers)
        return record

    def _put(self, line: bytes, is_synced: bool) -> None:
        kept = "all answers up to here are kept"
        try:
            line = line_feeds_before(self._file.tell(), line) + line
            if self._file.write(line) != len(line):
                self._is_torn = True
                words = "the disk must take the run file, but it is full"
                what_to_do = "Make room, then go on with --resume"
                raise JournalError(f"{self.path}: {words}; {kept}. {what_to_do}")
            if is_synced:
                getattr(os, "fdatasync", os.fsync)(self._file.fileno())
        except OSError as error:
            self._is_torn = True
            words = f"the run file must be writable ({error.strerror})"
            what_to_do = "Make room or put the disk right, then go on with --resume"
            raise JournalError(f"{self.path}: {words}; {kept}. {what_to_do}") from None

    def forget(self) -> None:
        """Let go of the records so far in memory: what needs none of them may go on for days."""
        self.records.clear()

    def close(self) -> None:
        """Let go of the file; may be called twice."""
        self._file.close()


def _not_resumed(path: str | os.PathLike[str], header: Header | None) -> FileError:
    words = f"{path}: must be a run file of format 1 to {FORMAT}"
    if header is None:
        return FileError([f"{words} with a readable first line; it cannot be resumed"])
    what_to_do = "resume it with the version of termprobe that wrote it"
    return FileError([f"{words}, not {header.format}; {what_to_do}"])


def encode(record: Record) -> bytes:
    """Return `record` as the line that stands in a run file."""
    document = codec.encode(record)
    text = json.dumps(document, ensure_ascii=True, allow_nan=False, separators=(",", ":"))
    data = text.encode("ascii")
    return b"%08x %s\n" % (zlib.crc32(data), data)


def line_feeds_before(offset: int, line: bytes) -> bytes:
    """Return what stands before `line` at `offset`, so that no page of the file ends within it.

    A program that is killed then leaves it whole, or nothing of it. It is nothing where the line
    fits into the page, and where it is longer than one.
    """
    room = PAGE_BYTES - offset % PAGE_BYTES
    if room < len(line) <= PAGE_BYTES:
        return b"\n" * room
    return b""


def _open(path: str | os.PathLike[str], mode: str) -> io.FileIO:
    try:
        file = io.FileIO(path, mode)  # noqa: SIM115 - the Journal closes it
    except FileExistsError:
        words = "must be a new file, and there is one already"
        what_to_do = "choose another name, or go on with --resume"
        raise FileError([f"{path}: {words}; {what_to_do}"]) from None
    except OSError as error:
        words = f"must be a file that can be written ({error.strerror})"
        raise FileError([f"{path}: {words}; try another folder"]) from None
    try:
        _lock(file)
    except OSError:
        file.close()
        raise JournalError(f"{path}: another program is writing this run; end it first") from None
    return file


def _lock(file: io.FileIO) -> None:
    try:
        import fcntl
    except ImportError:  # no such locks on this system; two writers are then for the user to avoid
        return
    fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)


def _sync_folder(path: str | os.PathLike[str]) -> None:
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
            words = f"the folder must take a new file ({error.strerror})"
            raise JournalError(f"{path}: {words}") from None
