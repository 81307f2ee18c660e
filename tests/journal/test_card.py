"""A run file says that it was filled in from a card."""

from termprobe.clock import CrankedClock
from termprobe.journal.card import FilledFromCard
from termprobe.journal.file import Journal
from termprobe.journal.reading import read
from termprobe.journal.records import BoardUnderTest, Header


def test_it_is_read_back_as_it_was_written(tmp_path):
    path = tmp_path / "a.run.jsonl"
    journal = Journal.create(path, Header(BoardUnderTest("1")), CrankedClock())
    written = journal.append(FilledFromCard("2026-07-04T10:00:00+00:00", "ab" * 32))
    journal.close()
    assert read(path).records == (written,)
