"""Hands and eyes at the simulated board."""

import dataclasses

import pytest

from helpers.bench_plan import PROFILE
from termprobe.board.board import Board
from termprobe.errors import UsageError
from termprobe.plan.compile import compile_plan
from termprobe.script.load import load as load_script
from termprobe.session.practice_board import PracticeHands


def test_what_the_board_shows_is_told_once():
    board = Board(PROFILE)
    hands = PracticeHands(board)
    board.receive(b"\x1aHELLO")
    seen = hands.look()
    assert seen.rows[0].rstrip() == "HELLO" and seen.cursor == (0, 5)
    assert hands.look() is None
    board.receive(b"!")
    assert hands.look().rows[0].rstrip() == "HELLO!"


def test_keys_are_pressed_with_what_is_held_meanwhile():
    plan = compile_plan(PROFILE, load_script("keyboard"))
    board = Board(PROFILE)
    hands = PracticeHands(board)
    hands.press(plan.step("press/q+shift"))
    assert b"".join(data for _, data in board.take_sent()) == b"Q"
    step = plan.step("press/q")
    hands.press(dataclasses.replace(step, press=dataclasses.replace(step.press, held=("a", "s"))))
    assert b"".join(data for _, data in board.take_sent()) == b"asq"
    hands.type("a")
    assert b"".join(data for _, data in board.take_sent()) == b"a"
    with pytest.raises(UsageError):
        hands.type("\x7f\xff")


def test_at_a_real_board_nothing_is_done():
    hands = PracticeHands(None)
    hands.type("a")
    hands.set_option("duplex", "half")
    assert hands.look() is None
