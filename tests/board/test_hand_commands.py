"""Lines of text that are the hands at a board."""

import os

import pytest

from helpers.boards import PROFILE, sent
from termprobe.board.board import Board
from termprobe.board.hand_commands import HAND_COMMANDS, CommandedHands, obey
from termprobe.errors import UsageError


@pytest.fixture
def board():
    return Board(PROFILE)


@pytest.fixture
def pipe():
    read, write = os.pipe()
    yield read, write
    os.close(read)


@pytest.mark.parametrize(
    "line, data",
    [
        ("Typed", b"Typed\r"),
        ("", b"\r"),
        (":press a", b"a"),
        (":press a shift", b"A"),
        (":press c control", b"\x03"),
        (":press tab", b"\t"),
        (":chord a d s", b"adsf"),
    ],
)
def test_lines_press_keys(board, line, data):
    obey(board, line)
    assert sent(board) == data


def test_a_line_moves_a_switch(board):
    board.receive(b"\x1a")
    obey(board, ":set duplex half")
    obey(board, "seen")
    assert board.screen().rows[0].startswith("seen")


def test_switching_off_and_on_by_hand(board):
    before = board.screen()
    board.receive(b"\x1a")
    obey(board, ":off-on")
    assert board.screen() == before


@pytest.mark.parametrize(
    "line",
    [":", ":dance", ":press", ":press a lock", ":chord a", ":set duplex", ":off-on now", ":\x1b"],
)
def test_what_is_no_command_is_told_what_there_is(board, line):
    with pytest.raises(UsageError, match="must be one of these") as refusal:
        obey(board, line)
    assert HAND_COMMANDS in str(refusal.value) and "\x1b" not in str(refusal.value)
    assert sent(board) == b""


def test_lines_are_read_whole_and_trouble_is_told(board, pipe):
    read, write = pipe
    told = []
    hands = CommandedHands(board, read, told.append)
    os.write(write, b"on")
    assert not hands.act(hands.sources())
    os.write(write, b"e\r\n:dance\ntwo\n")
    assert hands.act(hands.sources()) and not hands.act([])
    assert sent(board) == b"one\rtwo\r" and "dance" in told[0]
    os.close(write)
    hands.act(hands.sources())
    assert hands.sources() == []


def test_without_a_descriptor_nobody_has_hands_on_the_board(board):
    hands = CommandedHands(board, None, print)
    assert hands.sources() == [] and not hands.act([])
