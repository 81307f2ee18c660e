"""The board's own answer keys are tried."""

import pytest

from helpers.bench_state import after_event, console, state
from termprobe.session.messages import Came, Note, Send
from termprobe.session.react import dispatch, hearing

MADE = state("bell", "announced", board_keys="proven")


@pytest.mark.parametrize("key, word", [("y", "on"), ("n", "off")])
def test_the_builder_says_whether_they_answer(key, word):
    made, requests = dispatch.press(MADE, key, 1.0)
    assert made.board_keys == word and f"keyboard: {word}" in requests[0].text
    assert requests[1] == Send("bell", 1.0)


def test_the_boards_own_key_says_so_too_and_no_other():
    assert "Press y on the board's keyboard, or here" in console(MADE)
    made, (note, _) = hearing.hear(MADE, Came(b"Y"), 1.0)
    assert made.board_keys == "on" and isinstance(note, Note)
    assert after_event(MADE, Came(b"nx"), 1.0).mode == "announced"
