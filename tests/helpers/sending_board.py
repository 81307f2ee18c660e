"""A board that sends by itself: one key that is held, or text of which each follows the last."""

import random

from helpers.cabled_line import PROFILE, CabledInUse
from termprobe.board.base import Emitted
from termprobe.board.board import Board
from termprobe.board.cable.board_side import BoardSide
from termprobe.board.cable.link import side_of
from termprobe.line.rotation import TEXT

WAYS = {
    "board-stops-xoff": ("xon-xoff", None),
    "board-stops-cts": ("rts-cts", None),
    "board-stops-dtr": ("dtr", ("dsr",)),
}
"""Check -> handshake of the board that heeds it, and circuits that must be on before it sends."""


class SendingBoard(Board):
    """Sends `data` from power-up on, a character each `every_s`."""

    def __init__(self, data, every_s, faults=()):
        super().__init__(PROFILE, faults)
        self._outgoing = [
            Emitted(number * every_s, bytes([code])) for number, code in enumerate(data)
        ]


def sending(check, seed=0, data=TEXT * 3, faults=(), claimed=None, line=CabledInUse, side=None):
    """Return a line to a board that sends at a pace by chance, and heeds what the check tries."""
    chance = random.Random(seed)
    board = SendingBoard(data, chance.uniform(0.002, 0.07), faults)
    handshake, waits_for = side or WAYS[check]
    board_side = BoardSide(side_of(board).format, handshake, waits_for=waits_for)
    claims = {"dtr": "none"}.get(handshake, handshake)
    made = line(board, claimed or claims, side=board_side)
    made.clock.sleep_until(chance.uniform(0, 0.1))
    return made


SLOW = {"takes_s": 0.004, "buffer_characters": 8, "full_at": 4, "free_at": 1}


def busy_board(handshake, seed=0, line=CabledInUse, **side):
    """Return a line to a board that needs time for each character, and says when it is busy."""
    format = side_of(Board(PROFILE)).format
    made = line(handshake=handshake, side=BoardSide(format, handshake, **(side or SLOW)))
    made.clock.sleep_until(random.Random(seed).uniform(0, 1))
    return made


class Losing(CabledInUse):
    """Two characters are lost from what comes, where the board is let go on."""

    left = 0

    def write(self, data):
        super().write(data)
        if data == b"\x11":
            self.left = 2

    def poll_events(self, wait_s=0.0):
        came = list(super().poll_events(wait_s))
        while self.left and came:
            self.left -= 1
            came = came[1:] or list(super().poll_events(wait_s))
        return came


class Late(CabledInUse):
    """An adapter that delivers in bursts, 16 ms after the first character, as many do."""

    def __init__(self, *settings, **more):
        super().__init__(*settings, **more)
        self.kept = []

    def poll_events(self, wait_s=0.0):
        until_s = self.clock.now_s() + wait_s
        while True:
            self.kept += self.link.read(0.0)
            now_s = self.clock.now_s()
            if self.kept and now_s >= self.kept[0].at_s + 0.016:
                came, self.kept = self.kept, []
                return came
            if now_s >= until_s:
                return []
            self.clock.sleep_until(min(until_s, now_s + 0.004))


class NeverGoingOn(CabledInUse):
    """What lets the board go on is lost on the way."""

    def write(self, data):
        if data != b"\x11":
            super().write(data)
