"""An inverted line is known by what it makes of a key; worked out by hand, and on a cable."""

import pytest

from helpers.cabled_line import CabledInUse
from termprobe.board.cable.board_side import BoardSide
from termprobe.line.checks import CHECKS
from termprobe.line.levels import inverted
from termprobe.link.base import LineFormat

FORMATS = [LineFormat(), LineFormat(9600, 7, "even"), LineFormat(1200, 7, "odd", 2)]


def typed(levels, format=FORMATS[0], key="K"):
    side = BoardSide(format, levels=levels)
    line = CabledInUse(format=format, side=side)
    line.poll_events(0.5)
    for _ in range(3):
        line.board.type(key)
        came = b"".join(one.data for one in line.poll_events(0.2))
        line.heard["key"] = came + b"".join(one.data for one in line.poll_events(0.2))
    return line


def test_what_becomes_of_a_character_by_hand():
    """4Bh is sent 11010010; inverted, after the start bit at 1, come 0010 1101 and the stop at 0.

    The first 0 is taken for a start bit: 0, 1, 0, 1, 1, 0, 1 follow, then 0 of the idle line.
    """
    assert inverted(b"K", LineFormat()) == bytes([0b01011010])
    assert inverted(b"\xff", LineFormat()) == b""


@pytest.mark.parametrize("format", FORMATS)
@pytest.mark.parametrize("levels", ["ttl", "rs232-inverted"])
def test_an_inverted_line_is_known_at_the_other_end_of_a_cable(levels, format):
    checked = CHECKS["levels"](typed(levels, format))
    assert checked.is_right is False and "inverted levels make of" in checked.said
    assert "never tie an RS-232 line to a TTL pin" in checked.said


def test_right_levels_are_right():
    assert CHECKS["levels"](typed("rs232")).is_right is True
    assert CHECKS["levels"](typed("ttl-inverted")).is_right is True


@pytest.mark.parametrize(
    "came, is_right, said",
    [
        (None, None, "no key was typed"),
        (b"", None, "nothing came"),
        (b"\0\0", False, "only breaks came"),
        (b"\xfe\xfc\xff", False, "nearly all ones"),
        (b"A", None, "no sign of inverted levels"),
    ],
)
def test_other_signs(came, is_right, said):
    line = CabledInUse()
    line.heard["key"] = came
    checked = CHECKS["levels"](line)
    assert checked.is_right is is_right and said in checked.said
