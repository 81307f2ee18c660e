"""Protected and dim cells, the graphics set and the printer port, on a board written by hand.

A good one shows each step as it must be; one with a fault shows the steps wrong that are for that.
"""

import functools

import pytest

from helpers.fields_board import FieldsBoard
from helpers.paper import Paper
from helpers.scripts import acceptance
from helpers.special import with_fields
from termprobe.journal.records import AS_EXPECTED
from termprobe.observer.printer import PrinterObserver

SCREENS = ("graphics", "protected", "protected-erased", "unprotected", "printer-trace", "dim")
PRINTER = "printer-port"
SHOWN_BY = {
    "": set(),
    "dim-dead": {"dim"},
    "plain-dead": {"dim"},
    "graphics-on-dead": {"graphics"},
    "graphics-off-dead": {"graphics"},
    "graphics-shifted": {"graphics"},
    "protect-dead": {"protected", "protected-erased"},
    "unprotect-dead": {"protected", "protected-erased"},
    "guard-dead": {"protected", "protected-erased"},
    "unguard-dead": {"unprotected"},
    "guarded-written": {"protected"},
    "guarded-erased": {"protected-erased"},
    "printer-on-dead": {PRINTER},
    "printer-off-dead": {PRINTER},
    "printer-takes-all": {PRINTER},
    "printer-hides": {"printer-trace"},
    "printer-code-shown": {"printer-trace"},
}


@functools.cache
def plan():
    return acceptance(with_fields())


def played(step_id, wrong):
    board = FieldsBoard(wrong)
    board.receive(plan().step(step_id).data)
    return board


def is_shown_wrong(step_id, wrong):
    board, expected = played(step_id, wrong), plan().step(step_id).expected
    found = board.rows(), board.renditions()
    return found != (expected.rows, dict(expected.renditions))


def is_printed_wrong(wrong):
    said = PrinterObserver(Paper(played(PRINTER, wrong).printed)).answer(plan().step(PRINTER))
    return said.word != AS_EXPECTED


@pytest.mark.parametrize("wrong", SHOWN_BY)
def test_what_such_a_board_does_wrong_is_shown_by_the_steps_that_are_for_it(wrong):
    found = {step_id for step_id in SCREENS if is_shown_wrong(step_id, wrong)}
    found |= {PRINTER for _ in range(is_printed_wrong(wrong))}
    assert found == SHOWN_BY[wrong]
