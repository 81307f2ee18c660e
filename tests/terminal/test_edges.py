"""A command counts at its edge only where it leaves the screen."""

import pytest

from termprobe.profile.load import load
from termprobe.terminal.edges import EdgeWatch

PROFILE = load("singlebyte-24x80")
AT_END, AT_FOOT = b"\x1b= o", b"\x1b=7 "


@pytest.mark.parametrize(
    "data, names",
    [
        (b"\x08", {"left"}),
        (b"A\x08", set()),
        (b"\x0b", {"up"}),
        (b"\x0a\x0b", set()),
        (AT_END + b"\x0c", {"right"}),
        (b"\x0c", set()),
        (AT_FOOT + b"\x0a", {"down"}),
        (b"\x1b=~ ", {"address"}),
        (b"\x1b=7o", set()),
        (b"A" * 1920, set()),
    ],
)
def test_commands_that_leave_the_screen_are_named(data, names):
    assert EdgeWatch(PROFILE).feed(data) == names


def test_the_screen_goes_on_from_what_was_fed_before():
    watch = EdgeWatch(PROFILE)
    assert watch.feed(AT_FOOT) == set()
    assert watch.feed(b"\x0a") == {"down"}
