"""The ways into the modes beside the step."""

import pytest

from helpers.bench_state import after, asked_by, state
from termprobe.session.messages import Note, Quit
from termprobe.session.mode_table import MODES
from termprobe.session.react.waveform import Loop


@pytest.mark.parametrize(
    "key, mode", [("?", "help"), ("q", "stopping"), ("j", "list"), ("p", "paused"), ("+", "typing")]
)
def test_passing_modes_remember_what_they_lie_over(key, mode):
    made = after(state(), key)
    assert (made.mode, made.beneath) == (mode, ("look",))


@pytest.mark.parametrize("key, mode", [("t", "play"), ("w", "wave")])
def test_modes_that_send_lie_over_nothing(key, mode):
    made = after(state(), key)
    assert (made.mode, made.beneath) == (mode, ())


def test_a_pause_is_written_down():
    assert asked_by(state(), "p") == (Note("paused", "hello"),)


def test_the_list_opens_at_the_step_in_hand():
    assert after(state("solid"), "j").chosen == 4
    assert after(state(None, "ended"), "j").chosen == 0


def test_a_step_that_sends_nothing_cannot_be_stepped_through():
    made = after(state("lamp", "ask"), "t")
    assert (made.mode, made.notice) == ("ask", "")
    assert MODES["ask"].find("t", made) is None


def test_the_loop_for_the_scope_begins_with_the_byte_of_most_edges_and_is_kept():
    assert after(state(), "w").loop == Loop(b"U", state().format)
    kept = Loop(b"A", state().format)
    assert after(state(loop=kept), "w").loop == kept


def test_stopping_asks_and_an_interrupt_does_not():
    assert asked_by(state(), "q") == () and asked_by(after(state(), "q"), "y") == (Quit(),)
    assert asked_by(state(), "c-c") == (Quit(is_interrupted=True),)
