"""Presses and spelt text on the board's keyboard, and what the hands are told they did wrong."""

import dataclasses

import pytest

from helpers.boards import PROFILE, sent
from termprobe.board.board import Board
from termprobe.errors import UsageError
from termprobe.profile.key_codes import presses
from termprobe.profile.load import load
from termprobe.profile.model import Keyboard

ECMA48 = load("ecma48-24x80")


def test_every_listed_press_sends_its_code():
    board = Board(PROFILE)
    for key, modifiers, code in presses(PROFILE.keyboard):
        board.press(key, modifiers)
        assert sent(board) == code, (key, modifiers)
    board.type("Ok?\r")
    assert sent(board) == b"Ok?\r"


def test_without_a_keyboard_codes_are_typed_as_they_are():
    board = Board(dataclasses.replace(PROFILE, keyboard=None))
    board.type("a\r\x7f")
    assert sent(board) == b"a\r\x7f"
    with pytest.raises(UsageError, match="keyboard"):
        board.press("a")
    with pytest.raises(UsageError, match="seven bits"):
        board.type("é")


@pytest.mark.parametrize(
    "action, words",
    [
        (lambda board: board.press("retrun"), 'nearest is "return"'),
        (lambda board: board.type("é"), "a key of this keyboard sends"),
        (lambda board: board.set_option("duplx", "half"), 'nearest is "duplex"'),
        (lambda board: board.set_option("duplex", "on"), "full, half"),
    ],
)
def test_hands_are_told_what_they_did_wrong(action, words):
    with pytest.raises(UsageError, match=words):
        action(Board(PROFILE))


def test_the_keyboard_of_another_profile_works_on_this_board():
    assert isinstance(ECMA48.keyboard, Keyboard)
    board = Board(dataclasses.replace(PROFILE, keyboard=ECMA48.keyboard))
    board.press("up")
    assert sent(board) == b"\x1b[A"
