"""The worker's line: lost, looked for, opened anew."""

import threading

import pytest

from helpers.bench_plan import PROFILE
from termprobe.board.board import Board
from termprobe.board.link import SimLink
from termprobe.clock import CrankedClock
from termprobe.errors import LinkError, LinkLostError
from termprobe.link.base import LineFormat
from termprobe.session.kept_line import RETRY_S, KeptLine

USUAL, OTHER = LineFormat(9600, 7, "even", 1), LineFormat(1200, 8)


class Opener:
    """Opens a simulated line, or fails."""

    def __init__(self):
        self.error = None

    def __call__(self, line_format=USUAL):
        if self.error:
            raise self.error
        return SimLink(Board(PROFILE), CrankedClock(), line_format)


def made():
    opener = Opener()
    return KeptLine(opener(), opener, threading.Event()), opener


def test_a_line_that_is_gone_is_looked_for_now_and_then():
    line, opener = made()
    line.lose(LinkLostError("gone"), 10.0)
    assert line.is_lost and not line.is_troubled
    assert not line.is_retry_due(10.0) and line.is_retry_due(10.0 + RETRY_S)
    assert not line.is_retry_due(10.0 + RETRY_S)
    opener.error = LinkError("not there yet")
    with pytest.raises(LinkError):
        line.reopen()
    opener.error = None
    line.reopen()
    assert not line.is_lost and line.link.format == USUAL


def test_a_line_that_cannot_be_used_waits_for_the_builder():
    line, opener = made()
    line.lose(LinkError("held"), 10.0)
    assert line.is_troubled and not line.is_lost
    opener.error = LinkLostError("gone meanwhile")
    with pytest.raises(LinkError):
        line.reopen()
    assert line.is_lost


def test_the_line_is_as_before_after_another_format():
    line, _ = made()
    line.switch_to(OTHER)
    assert (line.link.format, line.format) == (OTHER, USUAL)
    line.reopen()
    assert line.link.format == USUAL
