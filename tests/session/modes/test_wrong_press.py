"""A wrong press waits for a decision of the builder."""

import dataclasses

import pytest

from helpers.bench_plan import plan, step
from helpers.bench_state import asked_by, console, course, state
from termprobe.journal.records import Answer, Answered, Heard
from termprobe.link.base import Received
from termprobe.session.messages import Judged, PressHeard, Ring, Send, TakeBack
from termprobe.session.react import dispatch, hearing

TWO = plan(step("press/q", "keys", "press"), step("press/w", "keys", "press"))


def pressed(data, amends=False):
    events = tuple(Received(0.01 * at, bytes([code])) for at, code in enumerate(data, 1))
    answer = Answer("differs", data=data, heard=Heard(9600, 7, events))
    return Answered("press/q", answer, amends=amends)


def judged(*records, **fields):
    return Judged(course(records, TWO), "press/q", **fields)


def heard(mode="waiting", step_id="press/q", **fields):
    """Return a state in which the press of q was heard."""
    changes = {"heard_id": "press/q", "is_known": True, "plan": TWO}
    return state(step_id, mode, **changes | fields)


WRONG = hearing.hear(heard(), judged(pressed(b"w")), 1.0)
HELD = WRONG[0]


def test_the_walk_stops_there_with_a_bell_and_says_what_came():
    assert HELD.mode == "wrong-press" and WRONG[1] == (Ring(1),)
    shown = console(HELD, 80, 24)
    assert "Enter keeps it, r presses it again" in shown
    assert 'WRONG: "w" came' in shown


def test_enter_keeps_it_r_presses_again_and_x_takes_back():
    assert asked_by(HELD, "enter") == (Send("press/w", 1.0),)
    assert asked_by(HELD, "r") == (Send("press/q", 1.0),)
    assert asked_by(HELD, "x") == (TakeBack("press/q"), Send("press/q", 1.0))


def test_a_press_before_it_is_decided_does_not_count_and_that_is_said():
    after, requests = hearing.hear(HELD, PressHeard((Received(0.1, b"q"),)), 1.0)
    assert (after.mode, requests) == ("wrong-press", (Ring(1),))
    assert "decide" in after.notice
    assert hearing.hear(HELD, PressHeard(()), 1.0) == (dataclasses.replace(HELD, now_s=1.0), ())


@pytest.mark.parametrize(
    "fields", [{"heard_id": None}, {"is_walking": True}], ids=["never-came", "practice"]
)
def test_a_press_that_never_came_and_a_practice_walk_do_not_stop(fields):
    after, requests = hearing.hear(heard(**fields), judged(pressed(b"w")), 1.0)
    assert after.mode == "waiting" and requests == (Send("press/w", 1.0),)


def test_a_right_press_does_not_stop():
    after, requests = hearing.hear(heard(), judged(pressed(b"q")), 1.0)
    assert after.mode == "waiting" and requests == (Send("press/w", 1.0),)


@pytest.mark.parametrize("mode", ["pressing", "waiting"])
def test_a_press_that_comes_to_be_wrong_stops_the_walk_at_the_next(mode):
    asking = heard(mode, "press/w")
    event = judged(pressed(b"q"), pressed(b"qq", amends=True), is_amended=True)
    after, requests = hearing.hear(asking, event, 1.0)
    assert (after.mode, after.step_id, requests) == ("wrong-press", "press/q", (Ring(1),))
    assert asked_by(after, "enter") == (Send("press/w", 1.0),)


def test_a_press_that_comes_to_be_right_goes_on_by_itself():
    event = judged(pressed(b"w"), pressed(b"q", amends=True), is_amended=True)
    after, requests = hearing.hear(HELD, event, 1.0)
    assert after.step_id == "press/w" and requests == (Send("press/w", 1.0),)


def test_the_bell_is_switched_off_by_a_key():
    silent = dispatch.press(HELD, "k", 1.0)[0]
    assert "off" in silent.notice
    assert hearing.hear(silent, PressHeard((Received(0.1, b"q"),)), 1.0)[1] == ()
