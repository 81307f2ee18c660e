"""A question is answered with yes or no."""

from helpers.bench_state import after, console, state


def test_a_question_is_helped_and_answered_with_yes_and_no():
    made = state("lamp", "ask", board_keys="on")
    shown = console(made, 80, 24)
    assert "y yes  n no" in shown
    assert "answer here or on the board's own keyboard: y yes, n no" in shown
    helped = console(after(made, "?"), 120, 50)
    assert "no: it is not as it must be" in helped and "cursor included" not in helped
