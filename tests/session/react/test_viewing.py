"""What is in sight: the screen alone, the board's, another part of it."""

from helpers.bench_state import after, state


def test_a_key_turns_to_the_screen_alone_and_back():
    assert after(state(), "g").is_alone and not after(state(), "g", "g").is_alone


def test_in_practice_a_key_turns_to_the_next_screen():
    made = state(is_practice=True)
    assert (made.turns, after(made, "v").turns, after(made, "v", "v").turns) == (0, 1, 2)


def test_a_screen_is_scrolled_from_where_it_was_shown_and_not_beyond_its_corner():
    made = after(state(shown_from=(3, 0)), "down", "right")
    assert made.scroll == (4, 8)
    assert after(made, *["up"] * 9, "left", "left").scroll == (0, 0)
