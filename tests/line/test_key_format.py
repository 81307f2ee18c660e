"""U pressed over and over, listened to at one rate and another."""

import pytest

from helpers.format_boards import FormatBench
from termprobe.board.cable.host_side import HostAdapter
from termprobe.line.key_format import key_format
from termprobe.link.base import LineFormat

WANTED = LineFormat(9600, 7, "even")


class PressedLine:
    """A line in use on whose board somebody presses U whenever it is listened to, or nobody."""

    def __init__(self, format, key="U", **settings):
        self._bench, self._key, self.link_format = FormatBench(format, **settings), key, WANTED
        self.clock, self.abilities = self._bench.clock, self._bench.link.abilities

    def set_format(self, format):
        self._bench.link.set_format(format)

    def poll_events(self, wait_s=0.0):
        if wait_s > 1 and self._key:
            self._bench.board.type(self._key)
        return self._bench.link.read(wait_s)


def test_the_right_format_passes():
    found = key_format(PressedLine(WANTED))
    assert found.is_right and found.said == "U comes as 9600 7E1 sends it"


@pytest.mark.parametrize(
    "format, settings, said",
    [
        (LineFormat(9600, 7, "odd"), {}, "odd parity for even"),
        (LineFormat(1200, 7, "even"), {}, "1200 baud for 9600"),
        (WANTED, {"levels": "rs232-inverted"}, "the line is inverted"),
        (WANTED, {"ratio": 4 / 3}, "12800 7E1"),
    ],
)
def test_what_u_shows_to_be_wrong_is_named(format, settings, said):
    found = key_format(PressedLine(format, **settings))
    assert found.is_right is False and said in found.said


def test_what_u_alone_does_not_show_passes():
    """Eight data bits without parity: bit 7 is 0, as the even parity of U is."""
    assert key_format(PressedLine(LineFormat(9600, 8, "none"))).is_right


def test_nothing_is_said_against_a_board_where_nobody_presses_or_the_port_cannot():
    assert key_format(PressedLine(WANTED, key="")).is_right is None
    unable = PressedLine(WANTED, adapter=HostAdapter(abilities=frozenset()))
    assert key_format(unable).said == "this port sets no speed and frame"
