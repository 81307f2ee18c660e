"""What a real UART reports of single characters: parity, framing, break, overrun. The driver's counters are played."""

import struct

import pytest

from helpers.lines import PtyBoard
from termprobe.link import ends

FRAME, OVERRUN, PARITY, BREAK = (
    6,
    7,
    8,
    9,
)  # places in linux/serial.h, struct serial_icounter_struct


class PortOf:
    """As much of pyserial's port as an end uses."""

    def __init__(self, descriptor):
        self.fileno = lambda: descriptor
        self.close = lambda: None


@pytest.fixture
def line(monkeypatch):
    """Return (counters, feed): feed(stream, has_parity) gives what the end makes of the stream."""
    counters = [0] * 20
    board = PtyBoard()
    monkeypatch.setattr(
        ends.fcntl, "ioctl", lambda descriptor, request, room: struct.pack("20i", *counters)
    )

    def feed(stream, has_parity, **risen):
        end = ends.TtyEnd(PortOf(board.master), is_stream=False, has_parity=has_parity)
        for place in risen.values():
            counters[place] += 1
        pieces = end._marked(stream)
        end.close()
        return pieces

    yield feed
    board.vanish()


def test_a_wrong_parity_bit_is_told_from_a_wrong_stop_bit(line):
    assert line(b"a\xff\0B", True, rises=PARITY) == ((b"a", ""), (b"B", "parity"))
    assert line(b"a\xff\0B", True, rises=FRAME) == ((b"a", ""), (b"B", "framing"))
    assert line(b"\xff\0B", True) == ((b"B", "parity"),)
    assert line(b"\xff\0B", False) == ((b"B", "framing"),), (
        "without parity nothing else can be wrong"
    )
    assert line(b"\xff\0B", False, rises=FRAME) == ((b"B", "framing"),)


def test_a_break_is_no_nul_character(line):
    assert line(b"\0\xff\0\0", True, rises=BREAK) == ((b"\0", ""), (b"\0", "break"))


def test_characters_that_were_lost_are_said_to_be(line):
    assert line(b"ab", False, rises=OVERRUN) == ((b"ab", ""), (b"", "overrun"))


def test_a_driver_without_counters_still_marks(monkeypatch):
    board = PtyBoard()  # a pseudo-terminal has none
    end = ends.TtyEnd(PortOf(board.master), is_stream=False, has_parity=True)
    assert end._marked(b"x\xff\0y") == ((b"x", ""), (b"y", "parity"))
    end.close()
    board.vanish()
