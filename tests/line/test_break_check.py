"""The real length of a break, by what comes back behind it; test_checks.py: how it is told."""

import re

import pytest

from helpers.cabled_line import CabledInUse
from helpers.looped_line import LoopedInUse
from termprobe.clock import CrankedClock
from termprobe.line import break_check
from termprobe.line.break_check import plug_break
from termprobe.link.base import LineFormat
from termprobe.link.breaks import send_break


class PluggedIn(CabledInUse):
    """A simulated adapter with a loopback plug, which makes breaks `times` as long as asked."""

    times = 1.0

    def send_break(self, length_s):
        send_break(self.link, self.clock, self.times * length_s)


@pytest.mark.parametrize("times", [0.4, 1.0, 1.1, 3.0])
@pytest.mark.parametrize("format", [LineFormat(9600, 7, "even"), LineFormat(300)])
def test_the_length_is_that_of_the_line(times, format):
    line = PluggedIn(wiring="loopback-plug", format=format)
    line.times = times
    found = plug_break(line)
    really_s, bit_s = line.link.break_s(), 1 / format.speed_baud
    told_s = int(re.search(r"about (\d+) ms long", found.said)[1]) / 1000
    assert found.is_right is True and -0.001 < told_s - really_s < bit_s + 0.001
    assert really_s == pytest.approx(times * break_check.BREAK_S, abs=0.001)
    assert ("of its own length" in found.said) is (times not in (1.0, 1.1))


def test_where_nothing_comes_behind_it_the_length_is_not_known():
    line = LoopedInUse(CrankedClock(), spoil=lambda data: b"")
    assert plug_break(line).said == "the break came back as a break, how long is not known"
