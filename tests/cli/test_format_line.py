"""The line whose format is to be found, and what its board should be set to."""

import argparse

import pytest

from termprobe.cli.format_line import opened_format_line
from termprobe.errors import UsageError
from termprobe.link.base import LineFormat


def line(**given):
    words = {"port": "sim:", "profile": "singlebyte-24x80", "speed": None, "format": None}
    return opened_format_line(argparse.Namespace(**words | given))


def test_a_simulated_board_is_on_a_cable_and_its_keys_can_be_pressed():
    opened = line()
    assert opened.wanted == LineFormat(9600, 7, "even") and opened.type
    assert "break-length" in opened.link.abilities


def test_options_go_before_the_profile_and_nothing_tells_nothing():
    assert line(speed=1200, format="8N1").wanted == LineFormat(1200, 8, "none")
    opened = line(profile=None, port="loop://", speed=1200)
    opened.link.close()
    assert opened.wanted is None  # the speed alone says no frame
    assert opened.type is opened.shown is None


def test_a_frame_that_is_none_is_refused():
    with pytest.raises(UsageError, match="try 8N1"):
        line(format="9X9")
