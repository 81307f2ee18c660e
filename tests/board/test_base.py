"""What every simulated board keeps, whole or of a keyboard alone."""

import pytest

from helpers.boards import PROFILE, sent
from termprobe.board.board import Board
from termprobe.board.keyboard_board import KeyboardBoard
from termprobe.errors import UsageError


@pytest.fixture(params=[Board, KeyboardBoard])
def make_board(request):
    return request.param


@pytest.fixture
def board(make_board):
    return make_board(PROFILE)


def test_it_has_its_profile_and_a_screen_of_its_size(board):
    display = board.profile.display
    assert board.profile is PROFILE
    assert {len(row) for row in board.screen().rows} == {display.columns}
    assert len(board.screen().rows) == display.rows


def test_what_is_pressed_is_sent_once(board):
    board.press("a")
    board.press("a", frozenset({"shift"}))
    board.press("c", ["control"])
    assert sent(board) == b"aA\x03"
    assert board.take_sent() == []


def test_text_and_chords_are_pressed_key_by_key(board):
    board.type("Ok\r")
    assert sent(board) == b"Ok\r"
    board.chord(["q", "w"])
    first, second = board.take_sent()
    assert (first.data, second.data) == (b"q", b"w")
    assert first.delay_s == 0 < second.delay_s


def test_a_break_is_sent_as_no_bytes(board):
    board.press("break")
    assert [one.data for one in board.take_sent()] == [b""]


def test_faults_are_given_by_name_or_as_records(make_board):
    named = make_board(PROFILE, ["key-matrix/shift-stuck"])
    assert named.wiring.keys.lines == {"shift": True}
    named.press("a")
    assert sent(named) == b"A"


@pytest.mark.parametrize(
    "action",
    [
        lambda board: board.press("no-such-key"),
        lambda board: board.chord(["a", "no-such-key"]),
        lambda board: board.type("\u00e9"),
    ],
)
def test_keys_that_are_none_are_refused_and_send_nothing(board, action):
    with pytest.raises(UsageError):
        action(board)
    assert board.take_sent() == []


def test_switching_off_and_on_loses_what_nobody_has_taken(board):
    board.set_option("duplex", "full")
    board.press("a")
    board.power_up()
    assert board.take_sent() == []
    board.press("a")
    assert sent(board) == b"a"


def test_it_takes_any_bytes(board):
    board.receive(bytes(range(256)))
    assert isinstance(board.screen().bells, int)
