"""Before the first step."""

from helpers.bench_state import after, asked_by, console, state
from termprobe.session.messages import Send

MADE = state("hello", "beginning", is_known=True, opening=("9 steps in 4 stages.",))


def test_what_the_session_begins_with_is_shown_without_a_step():
    shown = console(MADE)
    assert "Acceptance of a made-up board" in shown and "9 steps in 4 stages." in shown
    assert "Press enter to begin, ? for help." in shown and "Look at hello" not in shown


def test_a_key_goes_to_the_first_step():
    assert asked_by(MADE, "enter") == (Send("hello", 1.0),)
    unknown = state(None, "beginning")
    assert after(unknown, "y").mode == "waiting" and asked_by(unknown, "y") == ()
