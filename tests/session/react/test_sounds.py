"""The bell of the console sounds, and is switched off."""

import dataclasses

import pytest

from helpers.bench_plan import plan, step
from helpers.bench_state import after, state
from termprobe.link.base import Received
from termprobe.session.messages import Came, PressHeard, Ring, Shown
from termprobe.session.react import hearing

KEYS = plan(step("press/q", "keys", "press"), step("lamp", "end", "ask"))


def shown(made):
    """Return what is asked for when the step in hand has been sent."""
    sending = dataclasses.replace(made, mode="waiting")
    return hearing.hear(sending, Shown(made.step_id, 1.0), 1.0)[1]


def test_two_bells_say_that_a_look_is_ready():
    assert shown(state()) == shown(state("word")) == (Ring(2),)


def test_what_was_not_sent_is_ready_without_a_bell():
    assert shown(state("lamp")) == shown(state("supply-5v")) == ()
    assert shown(state("press/q", plan=KEYS)) == ()


def test_the_bell_of_a_look_is_switched_off_and_on_by_a_key():
    off = after(state(), "k")
    assert shown(off) == () and "is off" in off.notice
    assert shown(after(off, "k")) == (Ring(2),) and "is on" in after(off, "k").notice


def test_one_bell_says_that_no_press_left_sends_what_came():
    free = state("press/q", "pressing", plan=KEYS, is_free=True)
    strange = PressHeard((Received(0.1, b"z"),))
    assert hearing.hear(free, strange, 1.0)[1] == (Ring(1),)
    assert hearing.hear(after(free, "k"), strange, 1.0)[1] == ()


@pytest.mark.parametrize("data, bells", [(b"a", ()), (b"x", (Ring(1),)), (b"ax", (Ring(1),))])
def test_one_bell_says_that_a_word_is_typed_wrong(data, bells):
    assert hearing.hear(state("word", mode="typed-back"), Came(data), 1.0)[1] == bells
