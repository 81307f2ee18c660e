"""The state: modes that lie over one another, the step in hand."""

from helpers.bench_state import after, state


def test_passing_modes_lie_over_one_another_and_go_back_one_by_one():
    made = state().to("typing").to("lost")
    assert (made.mode, made.mode_beneath, made.lowest_mode) == ("lost", "typing", "look")
    assert made.back().mode == "typing" and made.back().back() == state()
    assert made.at("waiting").beneath == ()


def test_a_mode_that_lies_over_none_is_its_own_lowest():
    made = state()
    assert made.mode_beneath == made.lowest_mode == "look"


def test_before_the_first_step_an_empty_one_is_in_hand():
    made = state(None)
    assert (made.step.id, made.step.data, made.screen) == ("", b"", None)


def test_a_play_shows_the_screen_so_far():
    made = after(state(), "t")
    assert made.screen.rows != state().screen.rows
    assert after(made, "enter").screen.rows == state().screen.rows
