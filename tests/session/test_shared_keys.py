"""Keys that several modes have."""

from helpers.bench_state import after, state
from termprobe.session import shared_keys
from termprobe.session.mode import ModeKey
from termprobe.session.mode_table import MODES

STATE = state()


def test_no_two_of_them_share_a_name_except_where_one_takes_the_place_of_the_other():
    alike = {shared_keys.JUMP, shared_keys.JUMP_AWAY, shared_keys.PAGE_ON, shared_keys.PAGE_BACK}
    keys = [key for key in vars(shared_keys).values() if isinstance(key, ModeKey)]
    around = (*shared_keys.AROUND, *shared_keys.AT_ANY_TIME)
    names = [name for key in {*keys, *around} - alike for name in key.names.split()]
    assert len(names) == len(set(names)) and "j" not in names


def test_each_of_them_is_at_hand_somewhere():
    keys = {key for key in vars(shared_keys).values() if isinstance(key, ModeKey)}
    used = {key for mode in MODES.values() for key in mode.keys}
    assert keys <= used


def test_only_keys_of_the_simulated_board_are_of_the_practice():
    practised = {key.names for key in shared_keys.AROUND if key.is_practice}
    assert practised == {"v", "i"}


def test_that_the_boards_keys_answer_too_is_told_once_they_do():
    yes, no = ModeKey("y", after, "as expected", ""), ModeKey("n", after, "differs", "")
    hint = shared_keys.hint_of_answers(yes, no)
    assert hint(STATE) is None
    _, words = hint(state(board_keys="on"))
    assert words == "answer here or on the board's own keyboard: y as expected, n differs"
