"""Boards with any speed and frame on a simulated cable, and a builder who presses what is asked."""

import functools

from termprobe.board.board import Board
from termprobe.board.cable.board_side import BoardSide
from termprobe.board.cable.host_side import HostAdapter
from termprobe.board.cable.link import CableLink
from termprobe.board.keyboard_board import KeyboardBoard
from termprobe.clock import CrankedClock
from termprobe.line.format_finding import find_format
from termprobe.line.rate_sweep import LineSweep
from termprobe.link.base import LineFormat
from termprobe.profile.load import load

SPEEDS_BAUD = (110, 300, 1200, 2400, 4800, 9600, 19200)
COMBINATIONS = tuple(
    LineFormat(speed, data, parity, stop)
    for speed in SPEEDS_BAUD
    for data in (7, 8)
    for parity in ("none", "even", "odd")
    for stop in (1, 2)
)
RIGHT_KEYS = ()
profile = functools.cache(load)


class FormatBench:
    """A board on a cable; `slips` says which press (from 0) is another key."""

    def __init__(
        self, format, ratio=1.0, levels="rs232", adapter=None, slips=RIGHT_KEYS, is_whole=False
    ):
        kind = Board if is_whole else KeyboardBoard
        self.board = kind(profile("singlebyte-24x80"))
        self.board.wiring.speed_ratio = ratio
        self.clock = CrankedClock()
        side = BoardSide(format, levels=levels)
        self.link = CableLink(
            self.board, self.clock, LineFormat(), side=side, adapter=adapter or HostAdapter()
        )
        self.asked, self._slips = [], dict(slips)

    def press(self, asked):
        """Press what is asked, or slip."""
        key = self._slips.get(len(self.asked), asked.key)
        key = {"small": asked.key.lower()}.get(key, key)
        self.asked.append(asked)
        if key:
            self.board.type(key)

    def repeat(self, key, count):
        """Press a key several times, each at another phase of the listener's clock."""
        for number in range(count):
            self.board.type(key)
            self.link.unsent()  # the cable comes to now, and finds the press
            self.clock.sleep_until(self.clock.now_s() + 0.2 + number / 71317)

    def found(self, wanted=None):
        """Return the FoundFormat."""
        return find_format(self.link, self.clock, self.press, wanted)


def is_right(found, format):
    """Return whether the format is named, or one of those that nothing tells from it."""
    named = {each for wire in found.classes[0][0] for each in wire.line_formats()}
    return found.is_sure and format in named


def swept_on(bench, format):
    """Return what a sweep over a bench finds, or raise."""
    return LineSweep(bench.link, bench.clock, format, bench.repeat, lambda step: None).swept()
