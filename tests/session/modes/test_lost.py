"""The line is gone."""

import pytest

from helpers.bench_state import after, after_event, asked_by, console, state
from termprobe.session.messages import Lost, Regained, Retry


def test_what_to_do_depends_on_whether_the_adapter_is_gone():
    gone = console(after_event(state(), Lost("the adapter vanished")))
    assert "THE LINE IS GONE" in gone and "the adapter vanished" in gone
    assert gone.split("\n")[0].endswith("  GONE")
    assert "goes on by itself" in gone and "--resume" in gone
    held = console(after_event(state(), Lost("the board holds it", is_gone=False)))
    assert "TROUBLE WITH THE LINE" in held and "Put it right, then press enter" in held


def test_a_key_tries_again_now():
    assert asked_by(after_event(state(), Lost("gone")), "enter") == (Retry(),)


def test_news_of_the_loss_changes_what_is_told_alone():
    made = after_event(after_event(state(), Lost("gone")), Lost("still gone"))
    assert (made.beneath, made.lost) == (("look",), "still gone")


@pytest.mark.parametrize("key, mode", [("?", "help"), ("+", "typing"), ("q", "stopping")])
def test_what_lies_over_a_lost_line_stays_while_it_is_looked_for(key, mode):
    over = after(after_event(state(), Lost("gone")), key)
    made = after_event(over, Lost("still gone"))
    assert (over.mode, made.mode, made.lost) == (mode, mode, "still gone")
    back = after_event(made, Regained("the line is back"))
    assert "lost" not in (back.mode, *back.beneath)
