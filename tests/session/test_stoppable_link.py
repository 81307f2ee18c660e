"""A link that is broken off."""

import threading

import pytest

from helpers.bench_plan import PROFILE
from termprobe.board.board import Board
from termprobe.board.link import SimLink
from termprobe.clock import CrankedClock
from termprobe.link.base import LineFormat
from termprobe.session.stoppable_link import StoppableLink, StoppedError


def made():
    stop = threading.Event()
    inner = SimLink(Board(PROFILE), CrankedClock())
    return StoppableLink(inner, stop), inner, stop


def test_it_is_the_link_within_until_it_is_stopped():
    link, inner, _ = made()
    assert (link.name, link.format) == (inner.name, inner.format)
    link.write(b"\x1aHELLO")
    assert link.drain(10.0) and inner.drain(0.0)
    assert link.read(0.0) == () and link.lines() == inner.lines()
    link.set_format(LineFormat(300))
    assert link.format == inner.format == LineFormat(300)
    assert (link.abilities, link.unsent(), link.break_s()) == (inner.abilities, 0, None)
    assert link.counters() == {}


@pytest.mark.parametrize(
    "call",
    [
        lambda link: link.write(b"x"),
        lambda link: link.read(0.0),
        lambda link: link.drain(1.0),
        lambda link: link.lines(),
        lambda link: link.set_format(link.format),
        lambda link: link.unsent(),
        lambda link: link.break_s(),
        lambda link: link.counters(),
    ],
    ids=["write", "read", "drain", "lines", "set_format", "unsent", "break_s", "counters"],
)
def test_every_call_is_broken_off_once_it_is_stopped(call):
    link, _, stop = made()
    stop.set()
    with pytest.raises(StoppedError):
        call(link)
    link.set_line("rts", True)
    link.close()
