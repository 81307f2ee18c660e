"""The line is gone."""

from helpers.bench_state import after_event, asked_by, console, state
from termprobe.session.messages import Lost, Retry


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
