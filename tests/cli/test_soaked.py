"""Run files of soaks are told from others, and refused where they do not say how they began."""

import pytest

from helpers import run_files
from termprobe.cli.soaked import is_soak, load_soak
from termprobe.clock import CrankedClock
from termprobe.errors import FileError
from termprobe.journal.file import Journal
from termprobe.journal.records import BoardUnderTest, Header
from termprobe.journal.soaking import SoakBegun, SoakTold

BEGUN = SoakBegun(9600, 8, "none", 1, "none", False, 1, 100)


def made(folder, *records):
    header = Header(BoardUnderTest("7"), script="soak")
    journal = Journal.create(folder / "s.run.jsonl", header, CrankedClock())
    for record in records:
        journal.append(record)
    journal.close()
    return journal.path


def test_a_soak_is_read_back_as_far_as_it_came(tmp_path):
    path = made(tmp_path, BEGUN, SoakTold(1, 64, 64, 0.1), SoakTold(2, 100, 100, 0.2))
    soaked = load_soak(path)
    assert is_soak(path) and soaked.begun.characters == 100 and soaked.far.tally.sent == 100
    assert soaked.exit_code == 0 and soaked.rendered(False).startswith("PASS")
    assert '"verdict": "pass"' in soaked.rendered(True)


def test_one_that_was_never_begun_is_refused(tmp_path):
    path = made(tmp_path)
    with pytest.raises(FileError, match="does not tell how"):
        load_soak(path)


def test_other_run_files_are_no_soak(tmp_path):
    assert not is_soak(run_files.make(tmp_path, "a note"))
