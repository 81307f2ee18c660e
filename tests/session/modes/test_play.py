"""A step is stepped through on the console."""

from helpers.bench_state import after, asked_by, console, state
from termprobe.session.messages import SendGroups

MADE = after(state("corners"), "t")


def test_groups_are_sent_one_by_one_and_shown_beside_the_screen():
    assert asked_by(MADE, "right") == (SendGroups(MADE.play.groups[:1]),)
    shown = console(after(MADE, "right", "right"), 120, 32)
    assert 'group 2 of 7; sent: text "A"' in shown and "next: address 0 79: ESC" in shown
    assert '+ text "A"' in shown and "> address 0 79" in shown


def test_the_mark_is_moved_and_run_to():
    made = after(MADE, "down", "down", "down", "up")
    assert made.play.mark == 2 and "mark after 2" in console(made)
    assert asked_by(made, "enter") == (SendGroups(MADE.play.groups[:2]),)
    assert after(made, "m").play.mark == 0 and after(made, "m", "m").play.mark is None


def test_at_the_end_nothing_more_is_sent():
    made = after(MADE, "enter")
    assert "all is sent" in console(made) and asked_by(made, "right") == ()
    assert after(made, "r").play.sent == 0 and asked_by(made, "r") == ()


def test_leaving_sends_the_step_as_a_whole():
    made = after(MADE, "right", "t")
    assert (made.mode, made.play) == ("waiting", None)
