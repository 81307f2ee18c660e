"""What checks of a line have in common, on a simulated cable."""

from helpers.cabled_line import CabledInUse
from termprobe.line.in_use import QUIET_S, echoed, follows_ours, gathered, levels_with


def test_what_comes_is_gathered_until_it_is_as_long_or_nothing_more_comes():
    line = CabledInUse(wiring="loopback-plug")
    assert echoed(line, b"ABC") == b"ABC" and line.clock.now_s() < QUIET_S
    line.write(b"AB")
    assert b"".join(one.data for one in gathered(line, 3)) == b"AB"
    assert line.clock.now_s() > QUIET_S


def test_a_line_of_ours_is_on_again_after_it_was_tried():
    line = CabledInUse(wiring="loopback-plug")
    assert levels_with(line, "rts", False) == {"cts": False, "dsr": True, "dcd": True, "ri": False}
    assert line.lines()["cts"] and follows_ours(line, "cts") and not follows_ours(line, "ri")
