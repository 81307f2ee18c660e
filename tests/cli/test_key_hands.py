"""Whoever is at the board's own keyboard."""

import io
import sys

import pytest

from helpers.boards import sent
from helpers.incoming import Incoming
from termprobe.board.board import Board
from termprobe.cli.console import Console
from termprobe.cli.key_hands import (
    asked_hands,
    holding_on,
    pressing_on,
    told_hands,
    typing_on,
)
from termprobe.cli.observers import builder_at
from termprobe.cli.opened_line import open_link
from termprobe.clock import CrankedClock
from termprobe.journal.records import UNSURE
from termprobe.plan.compile import compile_plan
from termprobe.plan.model import LineCheck, TypedBack
from termprobe.profile.load import load
from termprobe.runner.asking import NO_HANDS, Asking
from termprobe.runner.told import deaf
from termprobe.script.load import load as load_script
from termprobe.yamlfile import shipped_ids

PROFILE = load("singlebyte-24x80")
PLANS = {
    name: compile_plan(load(name), load_script("keyboard")) for name in shipped_ids("profiles")
}
ACCEPTANCE = compile_plan(PROFILE, load_script("acceptance"))
WORD = next(step for step in ACCEPTANCE.steps if isinstance(step, TypedBack))


def steps_of(name):
    return [step for step in PLANS[name].steps if not step.not_fitted]


def test_nobody_is_told_anything():
    assert not any(map(callable, vars(NO_HANDS).values()))


def test_a_word_is_typed_on_the_simulated_board_with_return_behind_it():
    board = Board(PROFILE)
    typing_on(board)(WORD)
    assert sent(board) == WORD.typed and WORD.typed.endswith(b"\r")


@pytest.mark.parametrize("name", PLANS)
def test_a_key_is_pressed_with_its_modifiers_and_a_chord_key_by_key(name):
    board = open_link("sim:", load(name), CrankedClock(), is_of_keys=True).board
    press = pressing_on(board)
    for step in steps_of(name):
        press(step)
        assert sent(board) == step.press.code, step.id
    assert any(step.press.held for step in steps_of("ecma48-24x80"))


@pytest.mark.parametrize("name", PLANS)
def test_what_to_press_is_said_as_the_titles_say_it(name):
    steps = steps_of(name)
    assert steps
    for step in steps:
        assert step.title.startswith(f"{step.press.asked} sends ")


def at_console(monkeypatch, typed=""):
    """Return (console, what it is told, builder)."""
    told = io.StringIO()
    monkeypatch.setattr(sys, "stdin", io.StringIO(typed))
    console = Console(told)
    return console, told, builder_at(console)


def test_a_builder_is_told_what_to_type_and_what_to_press(monkeypatch):
    console, told, _ = at_console(monkeypatch)
    hands = told_hands(console)
    hands.type_word(WORD)
    word = WORD.word.rstrip()
    assert told.getvalue() == (
        f"\n{WORD.title}\n{WORD.question}\nType {word} and RETURN on the board's own keyboard.\n"
    )
    hands.press(steps_of("singlebyte-24x80")[1])
    assert told.getvalue().endswith('\nPress "1 !" with SHIFT on the board\'s own keyboard.\n')


@pytest.mark.parametrize(
    "hands_at, typed",
    [(told_hands, "u\n"), (lambda console: asked_hands(console, None), "\nu\n")],
)
def test_where_other_bytes_come_the_builder_is_asked_what_they_mean(monkeypatch, hands_at, typed):
    console, told, builder = at_console(monkeypatch, typed)
    asking = Asking(Incoming(b"XY\r"), [builder], hands_at(console), deaf)
    assert asking.ask(WORD).word == UNSURE
    assert 'must come from the keyboard, not "XY" CR.\n' in told.getvalue()


def test_what_a_builder_types_at_the_prompt_is_typed_on_a_simulated_board(monkeypatch):
    board = Board(PROFILE)
    console, told, _ = at_console(monkeypatch, "AB\n")
    hands = asked_hands(console, board)
    hands.type_word(WORD)
    assert sent(board) == b"AB\r"
    assert told.getvalue().endswith("RETURN on the board's own keyboard: ")
    assert hands.press is None


def test_at_a_real_board_the_builder_says_when_it_is_typed(monkeypatch):
    console, told, _ = at_console(monkeypatch, "\n")
    asked_hands(console, None).type_word(WORD)
    assert told.getvalue().endswith("own keyboard, then press ENTER here: ")


def test_a_word_typed_at_the_prompt_instead_of_the_board_is_said_and_asked_for_again(monkeypatch):
    console, told, _ = at_console(monkeypatch, f"{WORD.word.rstrip().upper()}\n\n")
    asked_hands(console, None).type_word(WORD)
    assert "That was typed on this computer." in told.getvalue()


@pytest.mark.parametrize("check, times", [("key-repeats", 30), ("no-echo", 0)])
def test_a_letter_is_held_on_the_simulated_board_where_a_check_needs_that(check, times):
    board = Board(PROFILE)
    step = LineCheck("held", "special", "Held", check=check)
    holding_on(board)(step)
    came = sent(board)
    assert len(came) == times and came == came[:1] * times
