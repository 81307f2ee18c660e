"""A long text: it is long at each speed, and nothing but a handshake may come back of it."""

import pytest

from helpers.looped_line import LoopedInUse
from termprobe.clock import CrankedClock
from termprobe.line.long_text import MOST, TEXT_S, long_text
from termprobe.link.base import LineFormat

TEXT = b"01234567" * 10


class LongLine(LoopedInUse):
    """A line that counts what is sent, and of which something else comes."""

    last_text, count = TEXT, 0

    def write(self, data):
        self.count += len(data)
        super().write(data)


def sent_over(back=b"", mark="", format=None):
    line = LongLine(CrankedClock(), format, spoil=lambda data: back, mark=lambda data: mark)
    return line, long_text(line)


@pytest.mark.parametrize("speed_baud, most", [(19200, MOST), (300, TEXT_S * 30)])
def test_it_is_long_but_not_too_long(speed_baud, most):
    line, found = sent_over(format=LineFormat(speed_baud))
    assert most - len(TEXT) < line.count <= most
    assert found.is_right is True and f"{line.count:,} characters more sent" in found.said


def test_a_handshake_may_come_back():
    _, found = sent_over(b"\x13\x11")
    assert found.is_right is True and "250 times stopped by XOFF" in found.said


def test_what_else_comes_is_a_failure():
    _, found = sent_over(b"Q")
    assert found.is_right is False and '"QQQQQQQQ" came back, though no key was' in found.said
    _, found = sent_over(b"\x11", "framing")
    assert found.is_right is False and "250 with an error of the line (framing)" in found.said
