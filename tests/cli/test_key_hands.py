"""Whoever is at the board's own keyboard."""

import dataclasses
import io
import sys

import pytest

from termprobe.board.board import Board
from termprobe.cli.console import Console
from termprobe.cli.key_hands import (
    NO_HANDS,
    asked_hands,
    keys_to_press,
    pressing_on,
    told_hands,
    typing_on,
)
from termprobe.cli.observers import builder_at
from termprobe.cli.opened_line import open_link
from termprobe.clock import CrankedClock
from termprobe.plan.compile import compile_plan
from termprobe.profile.load import load
from termprobe.script.load import load as load_script
from termprobe.yamlfile import shipped_ids

PROFILE = load("singlebyte-24x80")
PLANS = {
    name: compile_plan(load(name), load_script("keyboard")) for name in shipped_ids("profiles")
}
WORD = next(step for step in compile_plan(PROFILE, load_script("acceptance")).steps if step.word)


def steps_of(name):
    return [step for step in PLANS[name].steps if not step.not_fitted]


def test_nobody_is_told_anything():
    assert set(dataclasses.asdict(NO_HANDS).values()) == {None}


def test_a_word_is_typed_on_the_simulated_board_with_return_behind_it():
    board = Board(PROFILE)
    typing_on(board)(WORD)
    assert board.sent() == WORD.typed and WORD.typed.endswith(b"\r")


@pytest.mark.parametrize("name", PLANS)
def test_a_key_is_pressed_with_its_modifiers_and_a_chord_key_by_key(name):
    board = open_link("sim:", load(name), CrankedClock(), is_of_keys=True).board
    press = pressing_on(board)
    for step in steps_of(name):
        press(step)
        assert b"".join(data for _, data in board.take_sent()) == step.reply, step.id
    assert any(step.held for step in steps_of("ecma48-24x80"))


@pytest.mark.parametrize("name", PLANS)
def test_what_to_press_is_said_as_the_titles_say_it(name):
    keyboard = load(name).keyboard
    steps = steps_of(name)
    assert steps
    for step in steps:
        assert step.title.startswith(f"{keys_to_press(step, keyboard)} sends ")


def at_console(monkeypatch, typed=""):
    """Return (console, what it is told, builder)."""
    told = io.StringIO()
    monkeypatch.setattr(sys, "stdin", io.StringIO(typed))
    console = Console(told)
    return console, told, builder_at(console)


def test_a_builder_is_told_what_to_type_and_what_to_press(monkeypatch):
    console, told, builder = at_console(monkeypatch)
    hands = told_hands(builder, console, PROFILE.keyboard)
    hands.type_word(WORD)
    word = WORD.word.rstrip()
    assert told.getvalue() == (
        f"\n[{WORD.id}] {WORD.title}\n{WORD.question}\n"
        f"Type {word} and RETURN on the board's own keyboard.\n"
    )
    hands.press(steps_of("singlebyte-24x80")[2])
    assert told.getvalue().endswith(
        '\n[press/1+shift] Press "1 !" with SHIFT on the board\'s own keyboard.\n'
    )
    assert hands.again == builder.typed


def test_what_a_builder_types_at_the_prompt_is_typed_on_a_simulated_board(monkeypatch):
    board = Board(PROFILE)
    console, told, builder = at_console(monkeypatch, "AB\n")
    hands = asked_hands(builder, console, board)
    hands.type_word(WORD)
    assert board.sent() == b"AB\r"
    assert told.getvalue().endswith("RETURN on the board's own keyboard: ")
    assert hands.press is None


def test_at_a_real_board_the_builder_says_when_it_is_typed(monkeypatch):
    console, told, builder = at_console(monkeypatch, "\n")
    asked_hands(builder, console, None).type_word(WORD)
    assert told.getvalue().endswith("own keyboard, then press ENTER here: ")
