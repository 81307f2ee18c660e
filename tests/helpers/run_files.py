"""Run files with nothing but notes in them."""

import os

from termprobe.clock import CrankedClock
from termprobe.journal.file import Journal
from termprobe.journal.records import BoardUnderTest, Header, Noted

HEADER = Header(BoardUnderTest("0042"), plan_hash="f" * 64)


def make(folder, *texts):
    """Return the path of a closed run file with a note for each of `texts`."""
    journal = Journal.create(os.path.join(folder, "a.run.jsonl"), HEADER, CrankedClock())
    for text in texts:
        journal.append(Noted(text))
    journal.close()
    return journal.path


def notes(recording):
    return [record.text for record in recording.records if isinstance(record, Noted)]


def lines_ended(data):
    """Return how many lines of a run file's first bytes `data` end there, blank ones left aside."""
    return sum(map(bool, data.split(b"\n")[:-1]))
