"""A run file is written so that no record is lost: on a full disk, to an interrupt, to a resume."""

import json
import os
import resource
import subprocess
import sys
import zlib

import pytest

from helpers.run_files import HEADER, lines_ended, make, notes
from termprobe.clock import CrankedClock
from termprobe.errors import FileError, JournalError
from termprobe.journal.file import PAGE_BYTES, Journal, encode
from termprobe.journal.reading import parse, read, read_bytes
from termprobe.journal.records import (
    Answer,
    Answered,
    BoardUnderTest,
    Header,
    Noted,
    Resumed,
    Sent,
    Stopped,
)


def test_what_was_written_is_read_back(tmp_path):
    path = make(tmp_path, "a", "ü € \x1b\x00 \ud800")
    recording = read(path)
    assert recording.header.board == BoardUnderTest("0042") and recording.header.format == 2
    assert notes(recording) == ["a", "ü € \x1b\x00 \ud800"] and recording.damages == ()
    assert [record.seq for record in recording.records] == [1, 2]


def test_each_line_is_crc_blank_json_in_ascii(tmp_path):
    with open(make(tmp_path, "ü", "\n"), "rb") as file:
        lines = file.read().split(b"\n")
    assert lines.pop() == b"" and len(lines) == 3
    for line in lines:
        assert int(line[:8], 16) == zlib.crc32(line[9:]) and line[8:9] == b" "
        assert line.isascii() and set(json.loads(line[9:])) >= {"seq", "t", "at", "kind"}


def test_crc_is_the_common_one():
    # the check value of CRC-32 as in ISO 3309 / ITU-T V.42; common practice
    assert zlib.crc32(b"123456789") == 0xCBF43926


def test_bytes_are_kept_as_hexadecimal_and_other_things_refused(tmp_path):
    journal = Journal.create(tmp_path / "a", HEADER, CrankedClock())
    assert b'"data":"1b3dff"' in encode(journal.append(Sent("a", b"\x1b=\xff")))
    with pytest.raises(TypeError):
        journal.append(Noted({1, 2}))
    with pytest.raises(ValueError):
        journal.append(Answered("a", Answer(value=float("nan"))))
    journal.append(Noted("after"))
    recording = read(tmp_path / "a")
    assert [record.seq for record in recording.records] == [1, 2] and recording.damages == ()


def test_every_cut_position_can_be_gone_on_from(sample, tmp_path):
    data, texts = sample
    header_end = data.index(b"\n")
    for cut in range(header_end, len(data), 7):
        path = tmp_path / "cut"
        path.write_bytes(data[:cut])
        journal = Journal.reopen(path, CrankedClock())
        journal.append(Noted("went on"))
        journal.close()
        recording = read(path)
        assert path.read_bytes().startswith(data[:cut])  # never written again
        stands_alone = data[:cut].endswith(b"\n") or path.read_bytes()[cut:].startswith(b"\n")
        assert stands_alone  # no record goes on in the line of one that was torn
        *kept, last = notes(recording)
        assert last == "went on" and kept == texts[: len(kept)]
        assert len(kept) >= lines_ended(data[:cut]) - 1
        resumed = next(record for record in recording.records if isinstance(record, Resumed))
        whole = data[:cut].endswith(b"\n")
        assert resumed.torn == (None if whole else data[:cut].rfind(b"\n") + 1)


def test_a_kill_tears_no_record_for_none_lies_across_a_page(tmp_path):
    """A kill ends a write at the end of a page, if anywhere within it."""
    path = make(tmp_path, *(f"note {number}" * (number % 9) for number in range(200)))
    data = read_bytes(path)
    for cut in range(PAGE_BYTES, len(data), PAGE_BYTES):
        recording = parse(data[:cut])
        assert recording.damages == () and recording.torn is None
    assert len(data) > 5 * PAGE_BYTES and len(notes(read(path))) == 200


def test_a_record_of_more_than_a_page_lies_where_it_comes(tmp_path):
    path = make(tmp_path, "a", "long" * PAGE_BYTES, "b")
    assert b"\n\n" not in read_bytes(path)
    assert notes(read(path)) == ["a", "long" * PAGE_BYTES, "b"]


def test_numbering_goes_on_after_resume(tmp_path):
    path = make(tmp_path, "a", "b")
    journal = Journal.reopen(path, CrankedClock())
    journal.append(Noted("c"))
    assert [record.kind for record in journal.records] == ["note", "note", "resumed", "note"]
    journal.close()
    recording = read(path)
    assert [record.seq for record in recording.records] == [1, 2, 3, 4]
    assert recording.damages == ()


def test_a_run_file_is_never_written_over(tmp_path):
    path = make(tmp_path, "a")
    with pytest.raises(FileError, match="must be a new file"):
        make(tmp_path)
    assert notes(read(path)) == ["a"]


@pytest.mark.parametrize("name", ["missing/a", "."])
def test_a_place_that_takes_no_file_is_told(tmp_path, name):
    with pytest.raises(FileError, match="must be"):
        Journal.create(tmp_path / name, HEADER, CrankedClock())
    with pytest.raises(FileError, match="must be a run file"):
        Journal.reopen(tmp_path / name, CrankedClock())
    with pytest.raises(FileError, match="must be a run file"):
        read(tmp_path / name)


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"hello\n",
        b"\n",
        b"00000000 {}\n",
        encode(Header(BoardUnderTest("1"), seq=0, format=99)),
    ],
)
def test_another_file_is_not_resumed_and_not_touched(tmp_path, content):
    (tmp_path / "a").write_bytes(content)
    with pytest.raises(FileError, match="must be a run file of format 1 to 2"):
        Journal.reopen(tmp_path / "a", CrankedClock())
    assert (tmp_path / "a").read_bytes() == content


def test_a_run_file_of_a_later_version_is_left_to_that_one(tmp_path):
    (tmp_path / "a").write_bytes(encode(Header(BoardUnderTest("1"), seq=0, format=99)))
    told = "not 99; resume it with the version of termprobe that wrote it$"
    with pytest.raises(FileError, match=told):
        Journal.reopen(tmp_path / "a", CrankedClock())


def test_times_are_kept_to_the_microsecond(tmp_path):
    clock = CrankedClock()
    journal = Journal.create(tmp_path / "a", HEADER, clock)
    clock.sleep_until(clock.now_s() + 0.12345678)
    first = journal.header.t
    assert journal.append(Noted("later")).t == round(first + 0.123457, 6)


def test_two_programs_cannot_write_one_run(tmp_path):
    journal = Journal.create(tmp_path / "a", HEADER, CrankedClock())
    code = (
        "import sys\n"
        "from termprobe.journal.file import Journal\n"
        "from termprobe.clock import CrankedClock\n"
        "try: Journal.reopen(sys.argv[1], CrankedClock())\n"
        "except Exception as error: sys.exit(type(error).__name__ + ': ' + str(error))"
    )
    second = subprocess.run(
        [sys.executable, "-c", code, journal.path], capture_output=True, text=True, check=False
    )
    told = f"{tmp_path}/a: another program is writing this run; end it first"
    assert second.stderr == f"JournalError: {told}\n"
    journal.close()
    assert subprocess.run([sys.executable, "-c", code, journal.path], check=False).returncode == 0


def test_a_full_disk_is_told_at_once():
    with open("/dev/full", "ab", buffering=0) as file:
        journal = Journal("/dev/full", file, CrankedClock(), HEADER)
        told = r"^/dev/full: the run file must be writable \(No space left on device\); all answers"
        with pytest.raises(JournalError, match=told):
            journal.append(Answered("a", Answer("as-expected")))


def test_a_disk_that_fills_up_within_a_record_keeps_the_rest_and_can_be_gone_on_from(tmp_path):
    """The limit on file size stands for the full disk: a write is cut short, the next one fails."""
    path = make(tmp_path, "kept")
    code = (
        "import os, resource, sys\n"
        "from termprobe.clock import CrankedClock\n"
        "from termprobe.journal.file import Journal\n"
        "from termprobe.journal.records import Noted\n"
        "journal = Journal.reopen(sys.argv[1], CrankedClock())\n"
        "journal.append(Noted('kept too'))\n"
        "limit = os.path.getsize(sys.argv[1]) + 20\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))\n"
        "for _ in range(2):\n"
        "    try: journal.append(Noted('lost'))\n"
        "    except Exception as error: print(type(error).__name__, error)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, path], capture_output=True, text=True, check=False
    )
    assert [line.split()[0] for line in done.stdout.splitlines()] == ["JournalError"] * 2, (
        done.stderr
    )
    assert "but it is full" in done.stdout and "File too large" in done.stdout
    journal = Journal.reopen(path, CrankedClock())
    journal.append(Noted("went on"))
    journal.close()
    recording = read(path)
    assert notes(recording) == ["kept", "kept too", "went on"] and len(recording.damages) == 1
    assert resource.getrlimit(resource.RLIMIT_FSIZE)[0] == resource.RLIM_INFINITY


def test_after_a_failed_write_the_next_record_stands_on_a_line_of_its_own(tmp_path):
    class Failing:
        """A file whose third write is cut short."""

        def __init__(self, file):
            self.file, self.count, self.name = file, 0, file.name

        def write(self, data):
            self.count += 1
            return self.file.write(data[:10] if self.count == 3 else data)

        def fileno(self):
            return self.file.fileno()

        def tell(self):
            return self.file.tell()

    with open(tmp_path / "a", "ab", buffering=0) as file:
        journal = Journal(tmp_path / "a", Failing(file), CrankedClock(), HEADER)
        journal.append(HEADER)
        journal.append(Noted("a"))
        with pytest.raises(JournalError):
            journal.append(Noted("b"))
        journal.append(Noted("c"))
    assert notes(read(tmp_path / "a")) == ["a", "c"]


def test_an_interrupt_behind_a_write_loses_nothing_and_gives_no_number_twice(tmp_path, monkeypatch):
    journal = Journal.create(tmp_path / "a", HEADER, CrankedClock())

    def interrupted(descriptor):
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fdatasync", interrupted, raising=False)
    with pytest.raises(KeyboardInterrupt):
        journal.append(Answered("a", Answer("as-expected")))
    monkeypatch.undo()
    journal.append(Stopped())
    recording = read(tmp_path / "a")
    assert [record.kind for record in recording.records] == ["answer", "stopped"]
    assert recording.damages == ()


def test_records_that_matter_are_synchronised(tmp_path, monkeypatch):
    calls = []
    monkeypatch.setattr(os, "fdatasync", lambda descriptor: calls.append("data"), raising=False)
    monkeypatch.setattr(os, "fsync", lambda descriptor: calls.append("folder"))
    journal = Journal.create(tmp_path / "a", HEADER, CrankedClock())
    assert calls == ["data", "folder"]
    journal.append(Sent("a", b"x"))
    journal.append(Answered("a", Answer("as-expected")))
    assert calls == ["data", "folder", "data"]


def test_a_file_whose_records_are_forgotten_goes_on_as_before(tmp_path):
    journal = Journal.create(tmp_path / "a.run.jsonl", HEADER, CrankedClock())
    for text in ("a", "b"):
        journal.append(Noted(text))
        journal.forget()
        assert journal.records == []
    journal.close()
    recording = read(journal.path)
    assert notes(recording) == ["a", "b"] and recording.damages == ()
