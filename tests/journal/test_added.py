"""What is noted afterwards is of no sitting, and a file that was cut off takes it."""

import pytest

from helpers.run_files import make, notes
from termprobe.clock import CrankedClock
from termprobe.errors import JournalError
from termprobe.journal.added import Added, of_sittings
from termprobe.journal.file import Journal
from termprobe.journal.lost import LostRecords
from termprobe.journal.reading import read
from termprobe.journal.records import Noted, Resumed


def test_what_follows_is_left_out_until_the_run_goes_on():
    first, after, next_ = Noted("a"), Noted("b"), Noted("c")
    records = (first, Added(), after, Resumed(), next_)
    assert list(of_sittings(records)) == [first, Resumed(), next_]


def test_a_file_that_was_cut_off_takes_a_note_and_still_tells_what_is_lost(tmp_path):
    path = make(tmp_path, "first", "second")
    with open(path, "r+b") as file:
        file.truncate(file.seek(0, 2) - 5)
    journal = Journal.reopen(path, CrankedClock(), Added())
    journal.append(Noted("later"))
    journal.close()
    found = read(path)
    assert notes(found) == ["first", "later"]
    (lost,) = [one for one in found.records if isinstance(one, LostRecords)]
    (added,) = [one for one in found.records if isinstance(one, Added)]
    assert lost.records == 1 and added.torn is not None and added.answers == 0


def test_a_file_that_another_writes_is_refused(tmp_path):
    path = make(tmp_path)
    journal = Journal.reopen(path, CrankedClock())
    with pytest.raises(JournalError, match="another program is writing this run"):
        Journal.reopen(path, CrankedClock(), Added())
    journal.close()
