"""What may be answered to a look that is asked once more, by worked numbers."""

import pytest

from termprobe.diagnosis.accounts import Case
from termprobe.diagnosis.answers import LookAnswer
from termprobe.diagnosis.picked import Picked
from termprobe.diagnosis.picture_outlooks import NO_PICTURE, PASSED
from termprobe.diagnosis.readings import (
    MORE_WHERE_DISPUTED,
    MOST_READINGS,
    last_readings,
    outlooks_again,
)
from termprobe.diagnosis.shown import Sought

WANTED = Sought(b"AAAA", (0, 0), 0)


def answer(step="a", has_passed=False, **fields):
    return LookAnswer(step, has_passed, WANTED, 4, **fields)


def last(*answers):
    return last_readings(Case(None, None, (), answers, {}))


def test_the_last_answer_is_told_as_it_may_come_again():
    offered = ("p", "q")
    assert last(answer(), answer("b", True)) == {"a": True, "b": False}
    assert last(answer(picked=Picked("p", offered))) == {"a": "p"}
    assert last(answer(picked=Picked("", offered))) == {"a": NO_PICTURE}
    assert last(answer(has_passed=True, picked=Picked("", offered))) == {"a": PASSED}


def test_what_was_read_by_a_program_marked_or_answered_often_enough_is_not_asked_again():
    assert last(answer(marks={2: None})) == {}
    assert last(answer(codes=b"AAAA")) == {}
    assert last(answer(before=(answer(),) * (MOST_READINGS - 1))) == {}
    assert last(answer(before=(answer(),) * (MOST_READINGS - 2))) == {"a": True}


def test_a_reading_unlike_the_one_before_it_is_never_the_last_one_allowed():
    disputed = (answer(),) * (MOST_READINGS - 1)
    assert last(answer(has_passed=True, before=disputed)) == {"a": False}
    settled = (*disputed, answer(has_passed=True))
    assert last(answer(has_passed=True, before=settled)) == {}
    for_ever = (answer(has_passed=True), answer()) * (MOST_READINGS + MORE_WHERE_DISPUTED)
    assert last(answer(has_passed=True, before=for_ever)) == {}


def test_the_last_answer_comes_again_in_a_share_whatever_is_shown():
    shown, not_shown = {True: 0.9, False: 0.1}, {True: 0.02, False: 0.98}
    again = outlooks_again({"x": shown, "y": not_shown, "z": shown}, True, 0.3)
    assert again["x"] == pytest.approx({True: 0.93, False: 0.07})
    assert again["y"] == pytest.approx({True: 0.314, False: 0.686})
    assert again["z"] is again["x"]
