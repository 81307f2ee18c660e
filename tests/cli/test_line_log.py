"""What was sent, read from a log."""

import pytest

from termprobe.cli.line_log import sent_in
from termprobe.errors import FileError


def test_what_was_sent_is_all_of_it_and_what_came_is_left_out(tmp_path):
    path = tmp_path / "a.log"
    path.write_text('0.1 sent "A" CR\n0.2 came "B"\n0.3 sent "C"\n')
    assert sent_in(path) == b"A\rC"


def test_a_log_that_is_not_there_or_none_is_refused(tmp_path):
    with pytest.raises(FileError, match="must be a log that can be read"):
        sent_in(tmp_path / "none")
    path = tmp_path / "b.log"
    path.write_bytes(b"\xff\xfe")
    with pytest.raises(FileError, match=":1: "):
        sent_in(path)


def test_what_has_no_end_is_refused():
    with pytest.raises(FileError, match="/dev/zero:1: "):
        sent_in("/dev/zero")
