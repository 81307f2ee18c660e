"""A terminal device: what its driver makes of settings, and what a real UART reports of characters.

The driver's counters are played.
"""

import os
import struct
import sys
import termios

import pytest

from helpers.lines import PtyBoard, arrived, opened, taken
from termprobe.errors import LinkSettingsError
from termprobe.link import tty
from termprobe.link.base import LineFormat


def test_a_speed_that_the_driver_rounds_is_refused(board, monkeypatch):
    monkeypatch.setattr(tty, "actual_speed_baud", lambda descriptor: 75)
    port = os.open(board.path, os.O_RDWR | os.O_NOCTTY)
    assert "75 baud" in tty.refused(port, LineFormat(110))
    # 8 MHz / 832: within what a UART bears
    monkeypatch.setattr(tty, "actual_speed_baud", lambda descriptor: 9615)
    assert tty.refused(port, LineFormat(9600)) == ""
    os.close(port)


@pytest.mark.skipif(sys.platform != "linux", reason="reads the speed as Linux tells it")
@pytest.mark.parametrize("speed_baud", [110, 9600, 12345, 115200])
def test_the_speed_that_the_driver_has_is_read_back(board, as_real_port, speed_baud):
    link = opened(board.path, LineFormat(speed_baud))
    port = os.open(board.path, os.O_RDWR | os.O_NOCTTY)
    assert tty.actual_speed_baud(port) == speed_baud
    os.close(port)
    link.close()


def test_settings_left_by_the_last_user_do_not_leak_in(board, as_real_port):
    port = os.open(board.path, os.O_RDWR | os.O_NOCTTY)
    settings = termios.tcgetattr(port)
    settings[0] |= termios.BRKINT | termios.IGNPAR | termios.ISTRIP | termios.IXON | termios.ICRNL
    settings[3] |= termios.ECHO | termios.ICANON
    termios.tcsetattr(port, termios.TCSANOW, settings)
    os.close(port)
    with opened(board.path) as link:
        everything = bytes(range(256))
        board.reply(everything)
        assert arrived(link, 256) == everything, "FF is not doubled, XOFF not eaten, CR not changed"
        link.write(everything)
        assert taken(board, 256) == everything, "and the board's characters were not echoed to it"


# Indices in linux/serial.h, struct serial_icounter_struct
FRAME, OVERRUN, PARITY, BREAK = 6, 7, 8, 9


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
        tty.fcntl, "ioctl", lambda descriptor, request, room: struct.pack("20i", *counters)
    )

    def feed(stream, has_parity, **risen):
        end = tty.TtyEnd(PortOf(board.master), is_stream=False, has_parity=has_parity)
        for index in risen.values():
            counters[index] += 1
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
    end = tty.TtyEnd(PortOf(board.master), is_stream=False, has_parity=True)
    assert end._marked(b"x\xff\0y") == ((b"x", ""), (b"y", "parity"))
    end.close()
    board.vanish()


def test_another_speed_is_set_and_errors_are_marked_as_before(board, as_real_port):
    with opened(board.path) as link:
        assert link.abilities == {"frames", "break", "marks", "unsent"}
        assert link.note == "cannot count the errors of the line"
        link.set_format(LineFormat(300))
        port = os.open(board.path, os.O_RDWR | os.O_NOCTTY)
        flags = termios.tcgetattr(port)
        os.close(port)
        assert flags[0] & termios.PARMRK and flags[4:6] == [termios.B300] * 2
        assert link.format == LineFormat(300)


def test_a_frame_that_the_driver_makes_another_is_refused_and_the_old_one_set_again(
    board, as_real_port
):
    with opened(board.path) as link:
        with pytest.raises(LinkSettingsError, match="refuses"):
            link.set_format(LineFormat(300, 7, "none"))
        assert link.format == LineFormat()
        port = os.open(board.path, os.O_RDWR | os.O_NOCTTY)
        assert termios.tcgetattr(port)[4] == termios.B9600
        os.close(port)


def test_counters_count_from_when_the_port_was_opened(board, as_real_port, monkeypatch):
    counted = [7] * 20

    monkeypatch.setattr(tty, "_counters_of", lambda descriptor: struct.pack("20i", *counted))
    with opened(board.path) as link:
        assert "counters" in link.abilities
        assert link.counters() == {"framing": 0, "overrun": 0, "parity": 0, "break": 0}
        counted[PARITY] += 3
        assert link.counters() == {"framing": 0, "overrun": 0, "parity": 3, "break": 0}
