"""A pause does not count as time for the look."""

from helpers.bench_state import after, asked_by, console, state
from termprobe.session.messages import Note


def test_the_time_of_the_look_begins_anew():
    made = after(state(), "p", now_s=100.0)
    assert "Paused." in console(made)
    assert asked_by(made, "p") == (Note("pause ended", "hello"),)
    gone_on = after(made, "p", now_s=900.0)
    assert (gone_on.mode, gone_on.ready_at_s) == ("look", 900.0)
