"""A press is waited for on the line."""

import pytest

from termprobe.board.board import Board
from termprobe.clock import CrankedClock
from termprobe.link.base import LineFormat, Received
from termprobe.observer.press import PRESS_LIMIT_S, Ear
from termprobe.observer.quick_ear import HeardPress
from termprobe.plan.compile import compile_plan
from termprobe.profile.load import load
from termprobe.script.load import load as load_script
from termprobe.session.press_wait import PressWait

PROFILE = load("singlebyte-24x80")
PLAN = compile_plan(PROFILE, load_script("keyboard"))
Q = PLAN.step("press/q")


class Incoming:
    """Stands for a run on a board whose key bounces."""

    plan, link_format = PLAN, LineFormat()

    def __init__(self):
        self.board, self.clock = Board(PROFILE, ["key-matrix/key-bounces/q"]), CrankedClock()
        self.step, self.earlier = None, []

    def begin(self, step):
        self.step = step
        return self.earlier

    def poll_events(self, wait_s):
        self.clock.sleep_until(self.clock.now_s() + wait_s)
        return [Received(self.clock.now_s(), data) for _, data in self.board.take_sent()]


def data_of(events):
    return [event.data for event in events]


def wait(incoming, wait_s=None):
    made = PressWait(incoming, wait_s)
    made.begin(Q)
    return made


def test_bytes_without_a_pause_are_one_press():
    incoming = Incoming()
    ear = Ear(incoming)
    ear.wait_for(Q.press, None)
    incoming.board.press("q")
    assert data_of(ear.turn()) == [b"q", b"q"]


def test_a_press_is_heard_and_the_next_is_waited_for():
    incoming = Incoming()
    made = wait(incoming)
    assert made.hear() is None and made.is_on
    incoming.board.press("q")
    assert data_of(made.hear().events) == [b"q", b"q"] and made.is_on


@pytest.mark.parametrize("is_machine, limit_s", [(False, 2.0), (True, PRESS_LIMIT_S)])
def test_a_press_that_does_not_come_in_time_is_missing(is_machine, limit_s):
    incoming = Incoming()
    made = wait(incoming, 2.0)
    if is_machine:
        made.expect_machine()
    while (heard := made.hear()) is None:
        assert incoming.clock.now_s() < limit_s + 0.1
    assert heard == HeardPress(()) and incoming.clock.now_s() >= limit_s


def test_what_comes_between_two_presses_is_of_the_next_one():
    incoming = Incoming()
    incoming.earlier = [Received(0.0, b"stray")]
    made = wait(incoming)
    assert made.hear() is None, "before the first it is nobody's"
    incoming.earlier = [Received(incoming.clock.now_s(), b"q")]
    made.begin(Q)
    assert data_of(made.hear().events) == [b"q"]


def test_nothing_is_heard_where_nothing_is_waited_for():
    made = wait(Incoming())
    made.end()
    assert not made.is_on and made.hear() is None
    made.expect_machine()
    assert not made.is_on, "a press that was asked for before that is nobody's"
