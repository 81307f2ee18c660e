"""The board's own busy signal: seen, obeyed, and ignored."""

import pytest

from helpers.sending_board import busy_board
from termprobe.line.checks import CHECKS

TEXT = "01 02 03 04 05 06 07 08 09 10"


def tried(check, handshake, seed=0, **side):
    line = busy_board(handshake, seed, **side)
    found = CHECKS[check](line)
    line.poll_events(1.0)
    return found, line.link.cable.board.lost, line.board.screen().rows[0].strip()


@pytest.mark.parametrize("handshake, by", [("xon-xoff", "XOFF"), ("rts-cts", "CTS off")])
def test_a_board_that_is_obeyed_loses_nothing(handshake, by):
    for seed in range(20):
        found, lost, shown = tried("host-sees-busy", handshake, seed)
        assert found.is_right is True and f"says that it is busy by {by}, " in found.said
        assert (lost, shown) == (0, TEXT), seed
    assert "room for 16 more characters where an adapter tells that 16 ms late" in found.said


def test_a_board_that_is_not_obeyed_loses_characters():
    found, lost, shown = tried("busy-ignored", "rts-cts")
    assert found.is_right is True and lost > 0 and shown != TEXT


def test_a_board_that_is_fast_enough_is_never_busy_and_that_is_no_failure():
    found, lost, shown = tried("host-sees-busy", "none", takes_s=0.0)
    assert found.is_right is True and "never says that it is busy" in found.said
    assert (lost, shown) == (0, TEXT)


def test_a_board_that_stays_busy_for_ever_fails():
    found, _, _ = tried("host-sees-busy", "rts-cts", takes_s=100.0, buffer_characters=4)
    assert found.is_right is False
    assert found.said == "the board says CTS off and does not let go for 10 s"
