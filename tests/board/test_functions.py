"""The board's functions on counters and memory. tests/board/test_board.py compares them all."""

import pytest

from helpers.boards import PROFILE, changed, more, sent
from termprobe.board.board import Board
from termprobe.board.functions import FUNCTIONS
from termprobe.profile.model import Coordinates


def test_every_function_has_a_routine_and_those_of_one_coordinate_share_it():
    assert FUNCTIONS["address-row"] is FUNCTIONS["address-column"] is FUNCTIONS["address"]
    assert all(callable(routine) for routine in FUNCTIONS.values())


@pytest.mark.parametrize(
    "coordinates, data",
    [
        (Coordinates("offset", 0x20), b"\x22\x2c\r"),
        (Coordinates("binary", first=1), b"\x03\x0d\r"),
        (Coordinates("bcd"), b"\x02\x12\r"),
    ],
)
def test_a_reply_tells_where_the_cursor_is(coordinates, data):
    where = more("where", (b"\x1b?",), "reply", reply=("row", "column", b"\r"))
    board = Board(changed(PROFILE, commands=(where,), coordinates=coordinates))
    board.receive(b"\x1a\n\n" + b"x" * 12 + b"\x1b?")
    assert sent(board) == data


def test_a_reply_may_have_parameters_of_its_own():
    kind = more("kind", (b"\x1b?",), "reply", reply=(b"\x1b[", "parameters", b"c"))
    board = Board(changed(PROFILE, commands=(kind,)))
    board.receive(b"\x1b?")
    assert sent(board) == b"\x1b[?7c"


@pytest.mark.parametrize("edge, cursor", [("clamp", (23, 79)), ("keep", (0, 0))])
def test_a_coordinate_out_of_range_is_clamped_or_leaves_the_counter(edge, cursor):
    board = Board(changed(PROFILE, {"address": edge}))
    board.receive(b"\x1a\x1b=\x7f\x7f")
    assert board.screen().cursor == cursor


def test_a_character_that_waits_at_the_margin_is_let_go_by_what_moves_the_cursor():
    row = b"\x1a" + b"x" * 80
    for data, cursor in ((b"y", (1, 1)), (b"\x07y", (1, 1)), (b"\ry", (0, 1))):
        board = Board(changed(PROFILE, last_column="pending"))
        board.receive(row + data)
        assert board.screen().cursor == cursor
