"""Bytes sent over and over."""

import threading

import pytest

from helpers.bench_plan import PROFILE
from termprobe.board.board import Board
from termprobe.board.link import SimLink
from termprobe.clock import CrankedClock
from termprobe.errors import LinkSettingsError
from termprobe.link.base import LineFormat
from termprobe.session.kept_line import KeptLine
from termprobe.session.react.waveform import Loop
from termprobe.session.scope_loop import AT_A_TIME, send_in_its_format, send_over_and_over

LINE = LineFormat(9600, 7, "even", 1)


@pytest.mark.parametrize("gap_s, rounds_s", [(0.0, 2 * AT_A_TIME * LINE.character_s), (0.5, 1.0)])
def test_the_loop_goes_on_until_it_is_told_to_end(gap_s, rounds_s):
    clock, left = CrankedClock(), iter([True, True, False])
    link = SimLink(Board(PROFILE), clock, LINE)
    count = send_over_and_over(link, clock, Loop(b"U", LINE, gap_s), lambda: next(left))
    assert count == (2 if gap_s else 2 * AT_A_TIME)
    assert clock.now_s() >= rounds_s


class Opener:
    """Opens a line to one board, or refuses a speed above 19200 baud."""

    def __init__(self):
        self.clock = CrankedClock()

    def __call__(self, line):
        if line.speed_baud > 19200:
            raise LinkSettingsError("the port refuses 115200 baud")
        return SimLink(Board(PROFILE), self.clock, line)


@pytest.mark.parametrize(
    "speed_baud, count, refusal",
    [(9600, AT_A_TIME, ""), (1200, AT_A_TIME, ""), (115200, 0, "the port refuses 115200 baud")],
)
def test_it_is_sent_in_its_own_format_unless_the_line_refuses_that(speed_baud, count, refusal):
    opener, left = Opener(), iter([True, False])
    line = KeptLine(opener(LINE), opener, threading.Event())
    loop = Loop(b"U", LineFormat(speed_baud, 7, "even", 1))
    found = send_in_its_format(line, opener.clock, loop, lambda: next(left))
    assert found == (count, refusal) and line.format == LINE
