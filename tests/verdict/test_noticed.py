"""What is noticed of a press: whether it is the board's fault, and how often a contact works."""

import functools

import pytest

from termprobe.board.keyboard_board import simulate
from termprobe.link.base import Received
from termprobe.plan.presses import listed_presses
from termprobe.profile.load import load
from termprobe.verdict.listening import Listening, notice
from termprobe.verdict.noticed import (
    Bounce,
    Break,
    Code,
    EighthBit,
    Extra,
    LineError,
    Missing,
    Noticed,
    OnRelease,
    Rate,
    Repeat,
    Right,
    Several,
    WrongCode,
    with_one_more,
)

PROFILE = load("singlebyte-24x80")
A = next(press for press in listed_presses(PROFILE) if press.id == "press/a")
RIGHT, MISSING = (Right(b"a"),), (Missing(b"a"),)
ONE_OF_EACH = [
    Right(b"a"),
    WrongCode((Code(b"q"),), b"a"),
    EighthBit(b"\xe1", b"a"),
    Several((Code(b"q"),), b"a", has_wanted=True),
    Bounce(b"a", 2, 8.0),
    Extra(b"a", 2, 300),
    Repeat(b"a", 3, 500.0, is_allowed=True),
    Repeat(b"a", 3, 500.0, is_allowed=False),
    Missing(b"a"),
    OnRelease((), b"a", 100.0),
    Break(b"a"),
    LineError("parity", b"a"),
]


def test_only_what_was_wanted_and_an_allowed_repeat_is_no_failure():
    well = [one for one in ONE_OF_EACH if not one.fails]
    assert well == [Right(b"a"), Repeat(b"a", 3, 500.0, is_allowed=True)]


def test_each_kind_has_a_word_of_its_own():
    kinds = {type(one): one.kind for one in ONE_OF_EACH}
    assert set(kinds) == set(Noticed.__subclasses__())
    assert len(set(kinds.values())) == len(kinds)


@pytest.mark.parametrize(
    "presses, expected, is_flaky",
    [
        ([RIGHT] * 3, Rate(3, 3), False),
        ([MISSING] * 2, Rate(0, 2), False),
        ([RIGHT, MISSING, RIGHT], Rate(2, 3), True),
        ([(WrongCode((Code(b"q"),), b"a"),), MISSING], Rate(1, 2), True),
        ([(LineError("parity", b""), Missing(b"a")), RIGHT], Rate(1, 2), True),
        ([], Rate(0, 0), False),
    ],
)
def test_a_contact_works_where_something_comes(presses, expected, is_flaky):
    assert rated(presses) == expected and expected.is_flaky is is_flaky


def rated(presses):
    """Return the Rate over presses of one key, by what was noticed of each."""
    return functools.reduce(with_one_more, presses, Rate(0, 0))


def test_a_contact_that_works_only_sometimes_has_a_rate():
    keys, listening = simulate(PROFILE, ["key-matrix/key-flaky/a"]), Listening(9600, 8)
    walked = []
    for _ in range(10):
        came = [Received(at_s, data) for at_s, data in keys.press("a")]
        walked.append(notice(A, came, listening))
    assert rated(walked) == Rate(5, 10)
