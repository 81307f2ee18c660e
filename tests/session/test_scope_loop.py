"""Bytes sent over and over."""

import pytest
from helpers.bench_plan import PROFILE

from termprobe.board.board import Board
from termprobe.board.link import SimLink
from termprobe.clock import CrankedClock
from termprobe.link.base import LineFormat
from termprobe.session.react.waveform import Loop
from termprobe.session.scope_loop import AT_A_TIME, send_over_and_over

LINE = LineFormat(9600, 7, "even", 1)


@pytest.mark.parametrize("gap_s, rounds_s", [(0.0, 2 * AT_A_TIME * LINE.character_s), (0.5, 1.0)])
def test_the_loop_goes_on_until_it_is_told_to_end(gap_s, rounds_s):
    clock, left = CrankedClock(), iter([True, True, False])
    link = SimLink(Board(PROFILE), clock, LINE)
    count = send_over_and_over(link, clock, Loop(b"U", LINE, gap_s), lambda: next(left))
    assert count == (2 if gap_s else 2 * AT_A_TIME)
    assert clock.now_s() >= rounds_s
