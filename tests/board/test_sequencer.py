"""Codes after one another: commands that are broken off, and pieces of any size."""

import pytest

from helpers.boards import PROFILE, at, changed, more
from termprobe.board.board import Board

TWO_CODES = more("far-down", (b"\x1b&", "row", b",", "column", b"."), "address", "clamp")


def shown(data, profile=PROFILE):
    """Return the top row after `data`, without blanks at its end, and the cursor."""
    board = Board(profile)
    board.receive(b"\x1a" + data)
    screen = board.screen()
    return screen.rows[0].rstrip(), screen.cursor


@pytest.mark.parametrize("size", [1, 2, 3, 5])
def test_a_command_may_come_in_pieces(size):
    data = b"AB" + at(0, 9) + b"C"
    board = Board(PROFILE)
    board.receive(b"\x1a")
    for start in range(0, len(data), size):
        board.receive(data[start : start + size])
    assert board.screen().rows[0].rstrip() == "AB       C"


def test_a_code_that_completes_no_command_is_lost_with_its_lead_in():
    assert shown(b"A\x1bXB") == ("AB", (0, 2))


def test_a_wrong_code_within_a_command_is_lost_with_it():
    profile = changed(PROFILE, commands=(TWO_CODES,))
    assert shown(b"\x1b&%,&.A", profile)[1] == (5, 7)
    assert shown(b"\x1b&%;&.A", profile) == ("&.A", (0, 3))


def test_a_command_of_one_code_acts_between_characters_at_once():
    assert shown(b"AB\rC\x08D") == ("DB", (0, 1))
