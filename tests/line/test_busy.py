"""The board's own busy signal: seen, obeyed, and ignored."""

import pytest

from helpers.sending_board import SLOW, Late, busy_board
from termprobe.line.checks import CHECKS

LATE_S = 0.02
"""Of a late adapter, at worst: 16 ms, and the time that the tests let pass between two looks."""
ROOM = {"buffer_characters": 8, "full_at": 4, "free_at": 1}
TEXT = "01 02 03 04 05 06 07 08 09 10"


def tried(check, handshake, seed=0, delay_s=0.0, **side):
    line = busy_board(handshake, seed, **side)
    line.delay_s = delay_s
    found = CHECKS[check](line)
    line.poll_events(1.0)
    return found, line.link.cable.board.lost, line.board.screen().rows[0].strip()


@pytest.mark.parametrize("handshake, by", [("xon-xoff", "XOFF"), ("rts-cts", "CTS off")])
def test_a_board_that_is_obeyed_loses_nothing(handshake, by):
    for seed in range(20):
        found, lost, shown = tried("host-sees-busy", handshake, seed)
        assert found.is_right is True and f"says that it is busy by {by}, " in found.said
        assert (lost, shown) == (0, TEXT), seed
    assert "the adapter, 0 ms late, was waited for" in found.said


@pytest.mark.parametrize("seed", range(5))
def test_behind_a_late_adapter_a_healthy_board_loses_nothing(seed):
    line = busy_board("xon-xoff", seed, line=Late, takes_s=0.03, **ROOM)
    line.delay_s = LATE_S
    found = CHECKS["host-sees-busy"](line)
    line.poll_events(1.0)
    assert found.is_right is True and f"the adapter, {1000 * LATE_S:.0f} ms late" in found.said
    assert line.link.cable.board.lost == 0 and line.board.screen().rows[0].strip() == TEXT


def test_a_board_that_need_not_be_busy_at_the_pace_of_a_late_adapter_is_no_failure():
    found, lost, _ = tried("host-sees-busy", "xon-xoff", delay_s=LATE_S, **SLOW)
    assert found.is_right is None and "the adapter is late by 20 ms" in found.said and lost == 0


def test_where_the_delay_is_not_known_nothing_is_said_of_the_board():
    found, _, _ = tried("host-sees-busy", "xon-xoff", delay_s=None)
    assert found.is_right is None and found.said.endswith("plug, measures it")


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
