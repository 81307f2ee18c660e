"""Steps are taken in hand: caution, options, sending."""

from helpers.bench_state import after, asked_by, state
from termprobe.runner.course import SLOWEST
from termprobe.session.messages import Send
from termprobe.session.react.in_hand import take


def test_a_caution_comes_before_its_step_until_it_was_read():
    made, requests = take(state(), "supply-5v")
    assert (made.mode, requests) == ("caution", ())
    read = state(acknowledged=frozenset({made.step.caution}))
    assert take(read, "supply-5v")[1] == (Send("supply-5v", 1.0),)


def test_options_are_set_before_a_step_that_needs_them():
    assert take(state(), "word")[0].mode == "setting"
    assert take(state(positions={"duplex": "full"}), "word")[0].mode == "waiting"
    assert take(state(), "half-duplex")[0].mode == "waiting", "setting it is the step itself"


def test_a_step_begins_anew_with_nothing_of_the_one_before():
    made = state(typed=b"an", marks={(0, 0): "x"}, remark="dim", pace=4.0, is_on_board=True)
    found, _ = take(made, "more")
    assert (found.typed, found.marks, found.remark, found.pace) == (b"", {}, "", 1.0)
    assert not found.is_on_board
    assert take(made, None)[0].mode == "ended"


def test_each_wish_for_slower_sending_doubles_the_time_up_to_a_limit():
    assert asked_by(state(pace=2.0), "l") == (Send("hello", 4.0),)
    assert asked_by(state(pace=SLOWEST), "l") == (Send("hello", SLOWEST),)
    assert asked_by(state(pace=2.0), "r") == (Send("hello", 2.0),)


def test_back_passes_over_the_step_in_hand():
    made = state("more", trail=("hello", "more"))
    assert after(made, "b").step_id == "hello"
    assert "no step was answered" in after(state(trail=("hello",)), "b").notice
