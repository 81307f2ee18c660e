"""What is shown of a monitored line: rows elsewhere than on a console, one that grows on it."""

import io

from termprobe.cli.monitored import Monitored
from termprobe.clock import CrankedClock
from termprobe.line.bursts import CAME, SENT
from termprobe.link.base import LineFormat


class Screen(io.StringIO):
    def isatty(self):
        return True


def test_each_burst_is_a_row_and_a_line_of_the_log():
    clock, stream, log = CrankedClock(), io.StringIO(), io.StringIO()
    monitored = Monitored(LineFormat(), clock, stream, log)
    monitored.take(SENT, b"AB")
    clock.sleep_until(0.5)
    monitored.quiet()
    monitored.take(CAME, b"\x1b[2J", "parity", 0.4)
    clock.sleep_until(1.0)
    monitored.end()
    assert stream.getvalue().splitlines() == [
        '    0.000  +0.000  -->  "AB"',
        '    0.400  +0.400  <--  ESC "[2J"  [parity]',
        "2 bytes to the board, 4 from it, in 1.0 s; 4 with a parity error",
    ]
    assert log.getvalue() == '0.000000 sent "AB"\n0.400000 came ESC "[2J" ; parity\n'


def test_on_a_console_the_row_grows_and_no_byte_of_the_board_reaches_it():
    clock, stream = CrankedClock(), Screen()
    monitored = Monitored(LineFormat(), clock, stream, None)
    monitored.take(CAME, b"\x1b]0;title\x07")
    monitored.take(CAME, b"\x9b31m")
    monitored.end()
    shown = stream.getvalue()
    assert shown.count("\r") >= 3 and not {"\x1b", "\x07", "\x9b"} & set(shown)
    assert 'ESC "]0;title" BEL 9Bh "31m"' in shown


def test_a_gap_goes_by_the_speed_of_a_slow_line():
    clock, stream = CrankedClock(), io.StringIO()
    monitored = Monitored(LineFormat(110, stop_bits=2), clock, stream, None)
    for _ in range(3):
        monitored.take(CAME, b"A")
        clock.sleep_until(clock.now_s() + 0.3)
        monitored.quiet()
    monitored.end()
    assert '<--  "AAA"' in stream.getvalue()
