"""The loop that serves a board: bytes in and out, hands, and screens that may have changed."""

import pytest

from helpers.boards import PROFILE
from termprobe.board.board import Board
from termprobe.board.hand_commands import CommandedHands
from termprobe.board.link import SimLink
from termprobe.board.serve import serve
from termprobe.clock import SystemClock


class Ended(Exception):  # noqa: N818
    """Nothing more comes."""


class PlayedEnd:
    """An endpoint that receives each of `pieces`, and keeps what is sent."""

    name = "played"

    def __init__(self, *pieces):
        self._pieces, self.sent = list(pieces), b""

    def sources(self):
        return []

    def receive(self, ready):
        if not self._pieces:
            raise Ended
        return self._pieces.pop(0)

    def send(self, data):
        self.sent += data

    def close(self):
        pass


def served(board, *pieces):
    """Return the endpoint, and every screen shown, after the pieces have come."""
    end, shown = PlayedEnd(*pieces), []
    hands = CommandedHands(board, None, shown.append)
    with pytest.raises(Ended):
        serve(SimLink(board, SystemClock()), end, hands, shown.append)
    return end, shown


def test_the_screen_is_shown_at_first_and_after_bytes():
    _, shown = served(Board(PROFILE), b"", b"\x1aHi", b"")
    assert len(shown) == 2 and shown[1].rows[0].startswith("Hi")


def test_a_window_is_told_to_draw_what_waits_after_each_piece():
    ticks = []
    board, end = Board(PROFILE), PlayedEnd(b"", b"A", b"")
    hands = CommandedHands(board, None, ticks.append)
    with pytest.raises(Ended):
        serve(
            SimLink(board, SystemClock()), end, hands, lambda shown: None, lambda: ticks.append(1)
        )
    assert ticks == [1, 1, 1]


def test_what_the_board_sends_goes_out_at_the_end():
    board = Board(PROFILE)
    board.type("typed")
    end, _ = served(board, b"", b"")
    assert end.sent == b"typed"
