"""A fault that was named stands in the run file, and what was expected with it."""

from helpers.bench import HEADER
from termprobe.clock import CrankedClock
from termprobe.journal.file import Journal
from termprobe.journal.kept import ShownWithFaults
from termprobe.journal.known_fault import KnownFault, ToRepair
from termprobe.journal.reading import read
from termprobe.journal.records import Answer, Answered

STUCK = "bank-0-data/stuck/2/0"
SHOWN = ShownWithFaults((STUCK,), ("HE\ufffd ", "    "), (0, 3), 1)


def test_all_of_it_is_read_back_as_it_was_written(tmp_path):
    clock, path = CrankedClock(), tmp_path / "a.run.jsonl"
    journal = Journal.create(path, HEADER, clock)
    written = [
        journal.append(KnownFault(STUCK, ("a/b",), "stuck", ("first", "second"), ("third",))),
        journal.append(Answered("fourth", Answer("as-expected"), "hash", against=SHOWN)),
        journal.append(ToRepair(STUCK, (), "stuck", ("first",))),
    ]
    journal.close()
    assert list(read(path).records) == written


def test_an_answer_without_known_faults_tells_nothing_of_them(tmp_path):
    path = tmp_path / "a.run.jsonl"
    journal = Journal.create(path, HEADER, CrankedClock())
    journal.append(Answered("a", Answer("as-expected")))
    journal.close()
    assert b"against" not in path.read_bytes()
