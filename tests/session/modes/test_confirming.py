"""Whether the word cannot be typed is asked."""

from helpers.bench_state import after, after_event, console, state
from termprobe.session.messages import Came
from termprobe.session.react import hearing

ASKED = after(state("word", mode="typed-back", typed=b"x"), "c-w")


def test_what_came_is_shown_and_n_goes_back_with_nothing_recorded():
    assert 'Came from the board\'s keyboard: "x"' in console(ASKED, 80, 24)
    back = after(ASKED, "n")
    assert (back.mode, back.typed) == ("typed-back", b"x")


def test_what_is_typed_on_the_board_meanwhile_counts():
    made = after_event(ASKED, Came(b"y"), 1.0)
    assert (made.mode, made.typed) == ("typed-back", b"xy")
    clean = after(state("word", mode="typed-back"), "c-w")
    _, (record,) = hearing.hear(clean, Came(b"any\r"), 1.0)
    assert record.answer.word == "as-expected"
