"""What a board sends by itself, and when it must not: each check on a board that is right, and not.

What a check uses and comes back with: termprobe/line/in_use.py.
"""

import pytest

from helpers.looped_line import LoopedInUse
from termprobe.clock import CrankedClock
from termprobe.line.checks import CHECKS
from termprobe.link.base import LineFormat, Received


class Talking(LoopedInUse):
    """A line over which this comes: (seconds from now, bytes, error) each."""

    def __init__(self, *coming, text=b"\x05", **line):
        super().__init__(CrankedClock(), LineFormat(4800, 7, "odd"), **line)
        self._coming = [Received(at_s, data, error) for at_s, data, error in coming]
        self.text = text


def checked(check, *coming, **line):
    found = CHECKS[check](Talking(*coming, **{"spoil": lambda data: b""} | line))
    return found.is_right, found.said


def held(code=b"a", count=20, every_s=0.1):
    return [(3 + number * every_s, code, "") for number in range(count)]


def test_where_nothing_comes_of_what_is_sent_all_is_right():
    assert checked("nothing-comes") == (True, "nothing came of ENQ")


def test_what_comes_where_nothing_may_is_told():
    answering = {"spoil": lambda data: b"CLUB\r"}
    assert checked("nothing-comes", **answering) == (
        False,
        '"CLUB" CR came of ENQ, and nothing may',
    )


def test_a_break_that_is_sent_must_bring_nothing_back():
    assert checked("break-sent", back=None) == (
        True,
        "a break of 250 ms was sent, and nothing came of it",
    )
    assert checked("break-sent", back="break")[0] is False


def test_a_key_that_is_held_comes_over_and_over_and_then_no_more():
    is_right, said = checked("key-repeats", *held())
    assert is_right and said == '"a" came 20 times, 10.0 a second, and then no more'


@pytest.mark.parametrize(
    "coming, said",
    [
        (held(count=1), "came once: it must repeat"),
        ([*held(count=9), (4.5, b"b", "")], 'among 9 times "a" came "b"'),
        (held(count=4096, every_s=0.001), "4096 characters came, and no end"),
        ([(1, b"aaaaaa", "parity")], "with an error of the line"),
    ],
)
def test_a_key_that_does_not_repeat_or_not_alone_or_without_end_fails(coming, said):
    is_right, told = checked("key-repeats", *coming)
    assert is_right is False and said in told


def test_without_a_key_nothing_is_said():
    assert checked("key-repeats")[0] is None


def test_in_local_no_key_may_come():
    assert checked("keys-stay-local") == (True, "nothing came for 5 s")
    assert checked("keys-stay-local", (2, b"q", "")) == (
        False,
        '"q" came, and in local nothing may',
    )
