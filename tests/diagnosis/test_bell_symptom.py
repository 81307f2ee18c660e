"""A bell that was not heard: the words for it, and the boards that ring none."""

import dataclasses

import pytest

from helpers.scripts import SINGLE
from termprobe.board.board import Board
from termprobe.board.wiring import wire
from termprobe.diagnosis.bell_symptom import BellSilent, Ringers, is_of_silent_bell
from termprobe.diagnosis.blank_board import BlankBoards
from termprobe.errors import UsageError

BOARDS = BlankBoards(SINGLE)
RINGERS = Ringers(SINGLE, BOARDS.wired(wire(SINGLE)))


@pytest.mark.parametrize("words", ["the bell is silent", "no beep", "the bell doesn't ring"])
def test_a_silent_bell_in_words(words):
    assert is_of_silent_bell(words)


@pytest.mark.parametrize("words", ["the bell rings twice", "cursor missing", ""])
def test_words_for_something_else(words):
    assert not is_of_silent_bell(words)


def tried(*faults):
    """Return whether a board with `faults` rings, and whether it shows all characters."""
    wiring = Board(SINGLE, faults).wiring
    return RINGERS.rings(wiring), RINGERS.shows_all(BOARDS.wired(wiring))


def test_boards_that_ring_and_boards_that_do_not():
    assert tried() == (True, True)
    assert tried("decoder/dead/bell") == (False, True)
    assert tried("bank-0-data/stuck/1/0") == (True, False)
    assert tried("receiver-data/stuck/0/0") == (False, False)


def test_who_tells_of_the_bell_alone_sees_nothing_else():
    alone, beside = BellSilent(True), BellSilent(False)
    assert alone.fit(False, True).is_as_predicted and not alone.fit(True, True).is_as_predicted
    assert alone.fit(False, False).log_likelihood < beside.fit(False, False).log_likelihood == 0


def test_a_profile_without_a_bell_is_refused():
    others = tuple(one for one in SINGLE.commands if one.action != "bell")
    without = dataclasses.replace(SINGLE, commands=others)
    with pytest.raises(UsageError, match="it has no bell"):
        Ringers(without, BOARDS.wired(wire(SINGLE)))
