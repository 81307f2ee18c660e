"""How long the rest of a run takes."""

import pytest

from helpers.bench import look
from termprobe.journal.records import AS_EXPECTED, Answer, Answered, Sent, StepBegun
from termprobe.plan.model import Group
from termprobe.runner.time_left import KEPT_LOOKS, LONG_LOOK_S, paces_by, paces_s, time_left_s


def begun(step_id, at_s):
    return StepBegun(step_id, t=at_s)


def sent(step_id, at_s):
    return Sent(step_id, b"x", t=at_s)


def answered(step_id, at_s):
    return Answered(step_id, Answer(AS_EXPECTED), t=at_s)


def test_an_answer_takes_from_the_last_bit_sent_for_its_step():
    first = [begun("a", 0.0), sent("a", 2.0), sent("a", 10.0), answered("a", 13.0)]
    assert paces_by(first) == (3.0,)
    again = [begun("b", 20.0), sent("b", 21.0), begun("b", 30.0), sent("b", 31.0)]
    assert paces_by([*first, *again, answered("b", 33.0)]) == (3.0, 2.0)


def test_an_answer_for_which_nothing_is_sent_takes_from_the_beginning_of_its_step():
    assert paces_by([begun("a", 5.0), sent("b", 7.0), answered("a", 9.0)]) == (4.0,)


def test_an_answer_whose_beginning_is_not_known_gives_no_pace():
    assert paces_by([begun("a", 0.0), answered("b", 4.0), answered("a", 3.0)]) == (3.0,)
    assert paces_by([begun("a", 0.0), answered("a", 3.0), answered("a", 5.0)]) == (3.0,)


def test_a_pause_is_no_pace():
    assert paces_s([3.0, LONG_LOOK_S, 700.0, -1.0, 4.0]) == (3.0, 4.0)
    assert paces_by([begun("a", 0.0), answered("a", 700.0)]) == ()


def test_the_pace_is_that_of_the_latest_answers():
    assert paces_s([9.0, *[1.0] * KEPT_LOOKS]) == (1.0,) * KEPT_LOOKS


def test_the_time_left_is_that_of_the_line_and_the_median_answer_for_each_step():
    steps = [look("a", groups=(Group(b"x" * 100, "x", 2.0),)), look("b", groups=())]
    assert time_left_s(steps, 0.01, [1.0, 50.0, 3.0]) == pytest.approx(1 + 2 + 2 * 3)
    assert time_left_s(iter(steps), 0.01, [1.0, 3.0, 5.0, 50.0]) == pytest.approx(3 + 2 * 4)
    assert time_left_s(steps, 0.01, [1.0, 50.0]) is None
    assert time_left_s([], 0.01, [1.0] * 3) == 0
