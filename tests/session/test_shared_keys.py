"""Keys that several modes have: each does one thing, and a hint names what the board's keys do."""

from types import SimpleNamespace

from termprobe.session.mode import Key, nothing
from termprobe.session.shared_keys import AROUND, AT_ANY_TIME, hint_of_answers


def test_no_two_of_them_are_the_same_key():
    names = [name for key in (*AT_ANY_TIME, *AROUND) for name in key.names.split()]
    assert len(names) == len(set(names))


def test_only_what_acts_on_the_simulated_board_is_for_practice():
    practised = {key.label for key in (*AT_ANY_TIME, *AROUND) if key.is_practice}
    assert practised == {"board", "type on the board"}


def test_the_hint_is_there_while_the_board_s_own_keys_answer():
    yes, no = Key("y", nothing, "as shown", "it is"), Key("n", nothing, "differs", "it is not")
    hint = hint_of_answers(yes, no)
    words = "answer here or on the board's own keyboard: y as shown, n differs"
    assert hint(SimpleNamespace(board_keys="on")) == ("class:notice", words)
    assert hint(SimpleNamespace(board_keys="unproven")) is None
