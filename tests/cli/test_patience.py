"""A line about what takes longer than a moment, and none about what does not."""

import io

import pytest

from termprobe.cli import patience
from termprobe.cli.patience import Patience


class Console(io.StringIO):
    def isatty(self):
        return True


@pytest.fixture
def clock(monkeypatch):
    now = [100.0]
    monkeypatch.setattr(patience.time, "monotonic", lambda: now[0])
    return now


@pytest.mark.parametrize("kind", [io.StringIO, Console])
def test_of_what_is_done_in_a_moment_nothing_is_said(clock, kind):
    stream = kind()
    waiting = Patience("Working", stream)
    clock[0] += 0.4
    waiting.told(1, 2)
    waiting.end()
    assert stream.getvalue() == ""


def test_a_file_gets_one_line(clock):
    stream = io.StringIO()
    waiting = Patience("Working", stream)
    clock[0] += 0.6
    waiting.told(1, 3)
    waiting.told(2, 3)
    waiting.end()
    assert stream.getvalue() == "Working ...\n"


def test_a_console_gets_one_that_counts_and_goes(clock):
    stream = Console()
    waiting = Patience("Working", stream)
    clock[0] += 0.6
    waiting.told(99, 100)
    waiting.told(100, 100)
    waiting.end()
    first, second, blank, end = stream.getvalue().split("\r")[1:]
    assert (first, second) == ("Working: 99 of 100", "Working: 100 of 100")
    assert not blank.strip() and len(blank) == len(second) and end == ""


@pytest.mark.parametrize("kind", [io.StringIO, Console])
def test_of_what_takes_minutes_it_is_said_once_how_many_and_how_to_end_it(clock, kind):
    stream = kind()
    waiting = Patience("Working", stream)
    clock[0] += 300  # getting ready
    for done in range(1, 6):
        waiting.told(done * 10, 1230)
        clock[0] += 3
    waiting.end()
    told = "Working: about 6 min more, this once; Ctrl-C ends it"
    assert stream.getvalue().count(told) == 1
    assert stream.getvalue().count("\n") == {io.StringIO: 2, Console: 1}[kind]


def test_nothing_is_said_of_minutes_where_it_is_soon_done(clock):
    stream = io.StringIO()
    waiting = Patience("Working", stream)
    clock[0] += 10
    waiting.told(50, 100)
    assert stream.getvalue() == "Working ...\n"
