"""A screen is answered with one key."""

from helpers.bench_state import after, asked_by, console, state
from termprobe.journal.records import AS_EXPECTED, UNSURE


def test_one_key_is_an_answer():
    for key, word in (("y", AS_EXPECTED), ("u", UNSURE)):
        (record,) = asked_by(state(), key)
        assert (record.step_id, record.answer.word) == ("hello", word)
    assert after(state(), "n").mode == "marking" and after(state(), "d").mode == "typing"


def test_what_the_boards_keys_mean_is_told_once_they_answer():
    assert "look at the screen" in console(state())
    told = "answer here or on the board's own keyboard: y as expected, n differs"
    assert told in console(state(board_keys="on"))
