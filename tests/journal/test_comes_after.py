"""What a run comes after stands in its file, so that the other file need not be there."""

from helpers.bench import HEADER
from termprobe.clock import CrankedClock
from termprobe.journal.comes_after import ComesAfter
from termprobe.journal.file import Journal
from termprobe.journal.reading import read


def test_all_of_it_is_read_back_as_it_was_written(tmp_path):
    path = tmp_path / "a.run.jsonl"
    journal = Journal.create(path, HEADER, CrankedClock())
    written = journal.append(
        ComesAfter(
            "0007-1.run.jsonl",
            "ab" * 32,
            "2026-01-02T03:04:05",
            failed=("b",),
            passed=("a", "c"),
            first=("a", "b"),
            sharing=("c",),
            blocks=("bank-1-data",),
        )
    )
    journal.close()
    assert read(path).records == (written,) and read(path).damages == ()
