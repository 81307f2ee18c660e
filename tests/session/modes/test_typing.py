"""A line is typed."""

from helpers.bench_state import after, console, rows_of, state
from termprobe.session.mode_table import MODES

MADE = after(state(), "+")


def test_characters_are_taken_and_rubbed_out():
    made = after(MADE, "a", "space", "b", "left", "tab")
    assert made.text == "a b"
    assert after(made, "backspace").text == "a " and after(made, "c-u").text == ""
    assert after(MADE, "backspace").mode == after(made, "c-g").mode == "look"


def test_what_was_shown_before_stays_around_it():
    shown = console(after(MADE, *"warm"))
    assert (
        "Note (@FILE: photo): warm" in shown
        and "HELLO" in shown
        and "Is the figure of hello whole" in shown
    )


def test_the_end_of_a_long_line_stays_in_sight():
    row = MODES["typing"].typing_row
    long = state(mode="typing", beneath=("look",), text="a" * 90 + "END", purpose=MADE.purpose)
    (text,) = rows_of([row(long, 40)])
    assert text.startswith(" Note (@FILE: photo): a") and text.endswith("aEND ") and len(text) <= 40


def test_a_line_that_is_refused_says_why_and_stays():
    made = after(MADE, "enter")
    assert made.mode == "typing" and "must be told" in console(made)
