"""Pauses of a board that is busy after a command, found by looks or its screen."""

import json
from typing import NamedTuple

import pytest

from helpers.program import called, complaint
from termprobe.board.board import Board
from termprobe.cli.settle import SettleFinder
from termprobe.clock import CrankedClock
from termprobe.journal.records import SKIPPED, Answer
from termprobe.link.base import LineFormat
from termprobe.observer.simulated_screen import SimulatedScreenObserver
from termprobe.profile.load import load

CLUB = load("club-16x64")
CLEAR = CLUB.command("clear").bytes[0]
SETTLE = ("link", "--profile", "club-16x64", "--port", "sim:", "--settle")


class Busy(NamedTuple):
    """Characters that come so long after a clear are lost."""

    seconds: float


class BusyLink:
    """A Link to a board that is busy after each clear, in the time of `clock`."""

    name, note = "busy", ""

    def __init__(self, board, clock, busy, format):
        self.format, self._board, self._clock, self._busy = format, board, clock, busy
        self._free_s, self._busy_until_s = 0.0, 0.0

    def write(self, data):
        for code in data:
            self._free_s = max(self._free_s, self._clock.now_s()) + self.format.character_s
            if self._free_s - self.format.character_s < self._busy_until_s:
                continue
            self._board.receive(bytes([code]))
            if bytes([code]) == CLEAR:
                self._busy_until_s = self._free_s + self._busy.seconds

    def read(self, wait_s):
        return ()

    def drain(self, limit_s):
        return True


def needed(seconds, format):
    clock, board = CrankedClock(), Board(CLUB)
    link = BusyLink(board, clock, Busy(seconds), format)
    finder = SettleFinder(link, clock, CLUB, SimulatedScreenObserver(board.screen))
    return finder.find("clear").settling


@pytest.mark.parametrize("seconds", [0.0, 0.004, 0.0133, 0.12])
@pytest.mark.parametrize("speed_baud", [1200, 9600, 19200])
def test_the_pause_that_a_board_needs_is_found_to_within_a_character(seconds, speed_baud):
    format = LineFormat(speed_baud, 7, "odd")
    settling = needed(seconds, format)
    assert seconds <= settling.right_s <= seconds + format.character_s + 1e-6


def test_a_board_that_is_never_ready_is_told():
    settling = needed(2.0, LineFormat(9600))
    assert settling.right_s is None


def test_who_looks_may_stop():
    class Stopping:
        name = "nobody"

        def answer(self, step):
            return Answer(SKIPPED)

    clock, board = CrankedClock(), Board(CLUB)
    link = BusyLink(board, clock, Busy(0.0), LineFormat())
    assert SettleFinder(link, clock, CLUB, Stopping()).find("clear") is None


def test_the_command_tells_each_slow_one_ready_for_the_profile():
    done = called(*SETTLE)
    assert done.returncode == 0, done.stderr
    assert "clear: needs no pause at 4800 baud 7O1" in done.stdout
    told = json.loads(called(*SETTLE, "clear", "--json").stdout)
    assert told == [
        {
            "command": "clear",
            "settle_ms": 0.0,
            "too_short_ms": None,
            "fill_characters": 0,
            "line": "4800 baud 7O1",
        }
    ]


def test_other_names_and_a_line_that_nobody_looks_at_are_refused():
    assert 'not "claer"; nearest is "clear"' in complaint(called(*SETTLE, "claer"), 2)
    words = ("link", "--profile", "club-16x64", "--port", "loop://", "--settle", "clear")
    assert "must have somebody who looks" in complaint(called(*words), 2)
