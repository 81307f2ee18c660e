"""A caution is read."""

from helpers.bench_state import after, asked_by, console, state
from termprobe.session.messages import Acknowledge, Send

MADE = state("supply-5v", "caution")


def test_caution_and_its_step_are_shown():
    shown = console(MADE)
    assert "CAUTION" in shown and "One hand behind your back." in shown
    assert "Before: Do supply-5v" in shown
    assert "Switch off at once if: the regulator is too hot to touch" in shown


def test_the_step_is_sent_once_it_was_read_and_not_too_soon():
    assert asked_by(MADE, "enter") == (Acknowledge("supply-5v"), Send("supply-5v", 1.0))
    for key in ("enter", "y"):
        assert MADE.step.caution in after(MADE, key).course.acknowledged
    assert asked_by(state("supply-5v", "caution", ready_at_s=0.0), "enter", 0.1) == ()
