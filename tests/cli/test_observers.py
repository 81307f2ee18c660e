"""Who answers: what options bring in, and who is at the bench."""

import argparse
import io
import shlex
import sys
import types

import pytest

from helpers.bench import look, plan, screen_of
from termprobe import observer as folder
from termprobe.board.board import Board
from termprobe.cli import observers
from termprobe.cli.console import Console
from termprobe.errors import FileError, UsageError
from termprobe.observer.base import FreshScreenObserver, Offer
from termprobe.observer.dump import DumpObserver
from termprobe.observer.scripted import ScriptedObserver
from termprobe.observer.simulated_screen import SimulatedScreenObserver
from termprobe.observer.switch_hands import HandsObserver
from termprobe.profile.load import load

PROFILE = load("singlebyte-24x80")
PLAN = plan(look("a"))


def parsed(*words):
    parser = argparse.ArgumentParser()
    observers.add_observer_arguments(parser)
    return parser.parse_args(words)


def made(*words):
    return observers.offered(parsed(*words), PLAN)


def test_every_offer_of_an_observers_module_is_an_option():
    offers = observers.offers()
    assert {offer.option for offer in offers} >= {"--dump", "--answers"}
    assert len({offer.option for offer in offers}) == len(offers)
    assert all(offer.help and offer.metavar.isupper() for offer in offers)


def test_an_option_that_is_given_brings_its_observer(tmp_path):
    assert made() == []
    answers = tmp_path / "rig.yaml"
    answers.write_text("{}")
    kinds = [type(one) for one in made("--answers", str(answers), "--dump", "cat screen")]
    assert kinds == [DumpObserver, ScriptedObserver]


def test_an_option_that_cannot_be_followed_is_refused():
    with pytest.raises(UsageError, match="--dump must be a command"):
        made("--dump", "'")
    with pytest.raises(FileError, match="/nowhere.yaml"):
        made("--answers", "/nowhere.yaml")


def test_a_dump_waits_by_the_systems_clock():
    text = shlex.join([sys.executable, "-c", r"print('HELLO\n\n')"])
    (dump,) = made("--dump", text)
    assert dump.answer(look("a")).word == "as-expected"


def test_a_module_more_is_an_option_more(tmp_path, monkeypatch):
    (tmp_path / "lamp.py").write_text(
        "from termprobe.observer.base import Offer\n"
        "OFFER = Offer('--lamp', 'PIN', 'lamp', lambda pin, plan, clock: ('lamp', pin))\n"
    )
    monkeypatch.setattr(folder, "__path__", [*folder.__path__, str(tmp_path)])
    monkeypatch.delitem(sys.modules, "termprobe.observer.lamp", raising=False)
    try:
        assert made("--lamp", "7") == [("lamp", "7")]
        assert any(
            isinstance(offer, Offer) and offer.option == "--lamp" for offer in observers.offers()
        )
    finally:
        sys.modules.pop("termprobe.observer.lamp", None)


def bench(board):
    return types.SimpleNamespace(board=board, profile=PROFILE)


def test_a_simulated_board_shows_its_screen_and_has_its_switches_moved():
    board = Board(PROFILE)
    (screen,) = observers.simulated_screen(bench(board))
    (hands,) = observers.simulated_hands(bench(board))
    assert isinstance(screen, SimulatedScreenObserver) and isinstance(hands, HandsObserver)
    assert observers.simulated_screen(bench(None)) == observers.simulated_hands(bench(None)) == []


def asked(board, monkeypatch):
    """Return what a builder is told of a look, answered with yes."""
    told = io.StringIO()
    monkeypatch.setattr(sys, "stdin", io.StringIO("y\n"))
    builder = observers.builder_at(Console(told), board)
    assert builder.answer(look("a", expected=screen_of("HELLO"))).word == "as-expected"
    return told.getvalue()


def test_a_builder_sees_what_is_expected_and_what_a_simulated_board_shows(monkeypatch):
    board = Board(PROFILE)
    board.receive(b"\x1aGOODBYE")
    told = asked(board, monkeypatch)
    assert "HELLO" in told and "The simulated board shows:\n" in told and "GOODBYE" in told
    assert "simulated board" not in asked(None, monkeypatch)


def test_the_bell_of_a_simulated_board_counts_from_the_beginning_of_the_step(monkeypatch):
    board, told = Board(PROFILE), io.StringIO()
    monkeypatch.setattr(sys, "stdin", io.StringIO("y\ny\n"))
    builder = observers.builder_at(Console(told), board)
    assert isinstance(builder, FreshScreenObserver)
    board.receive(b"\x07\x07")
    builder.begin()
    board.receive(b"\x1a\x07")
    builder.answer(look("a", expected=screen_of("", bells=1)))
    assert told.getvalue().count("the bell sounds once") == 2
    assert "times" not in told.getvalue()
