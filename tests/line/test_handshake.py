"""Boards that stop, that do not, that lose characters, and that never go on; no false alarm."""

import pytest

from helpers.sending_board import WAYS, Late, Losing, NeverGoingOn, sending
from termprobe.line.checks import CHECKS

XOFF = "board-stops-xoff"


def checked(check, **settings):
    found = CHECKS[check](sending(check, **settings))
    return found.is_right, found.said


@pytest.mark.parametrize("check", WAYS)
def test_a_healthy_board_raises_no_alarm(check):
    for seed in range(20):
        is_right, said = checked(check, seed=seed)
        assert is_right is True and "the board stops" in said and "0 lost" in said, seed


def test_an_adapter_that_delivers_late_raises_no_alarm():
    for seed in range(3):
        is_right, said = checked(XOFF, seed=seed, line=Late)
        assert is_right is True and said.endswith("; 0 lost"), seed


def test_how_many_characters_still_came_is_told():
    said = checked("board-stops-cts", seed=1)[1]
    assert said == (
        "the board stops; characters that still came: 0 after its CTS off, our RTS; "
        "it goes on when it may; 0 lost"
    )


def test_of_a_held_key_no_loss_can_be_told():
    is_right, said = checked(XOFF, data=b"A" * 200)
    assert is_right is True and said.endswith("does not tell whether any is lost")


def test_a_board_that_ignores_xoff_fails_where_it_claims_to_heed_it():
    ignoring = {"side": ("none", None), "data": b"A" * 9000}
    is_right, said = checked(XOFF, claimed="xon-xoff", **ignoring)
    assert is_right is False and said == "the board goes on sending in spite of XOFF"
    is_right, said = checked(XOFF, claimed="rts-cts", **ignoring)
    assert is_right is True and said.endswith("no failure, for the profile claims rts-cts")


def test_a_board_that_loses_two_characters_fails():
    is_right, said = checked(XOFF, line=Losing)
    assert is_right is False and said.endswith("; 2 lost")


def test_a_board_that_never_goes_on_fails():
    is_right, said = checked(XOFF, line=NeverGoingOn)
    assert is_right is False and "it does not go on when it may again" in said


def test_where_nothing_is_sent_nothing_is_said_against_the_board():
    is_right, said = checked(XOFF, data=b"")
    assert is_right is None and "hold a key" in said


@pytest.mark.parametrize("check", WAYS)
def test_whatever_was_tried_nothing_is_held_at_the_end(check):
    line = sending(check)
    CHECKS[check](line)
    board = line.link.cable.board
    assert board.end.is_on(line.clock.now_s(), "cts") and board.end.is_on(1e9, "dsr")
    assert not board._is_stopped
