"""Whether to stop is asked."""

from helpers.bench_state import after, asked_by, console, state
from termprobe.session.messages import Quit

MADE = after(state(), "q")


def test_one_key_stops_and_another_goes_on():
    assert "Stop the session?" in console(MADE) and "--resume goes on" in console(MADE)
    assert asked_by(MADE, "y") == (Quit(),)
    assert after(MADE, "n").mode == "look" and asked_by(MADE, "n") == ()
    assert asked_by(MADE, "q") == (Quit(),)


def test_enter_does_not_stop():
    assert asked_by(MADE, "enter") == () and after(MADE, "enter").mode == "stopping"
