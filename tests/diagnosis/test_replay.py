"""Which faults would show the screens of a run, by sending all of it again."""

import dataclasses

import pytest

from helpers.boards import PROFILE
from helpers.scripts import look, plan_of
from termprobe.board.board import Board
from termprobe.diagnosis.replay import faults_that_show
from termprobe.journal.records import DUMP, EYES, Answer, Answered, OptionSet, Sent, StepBegun

PLAN = plan_of(
    [
        look("letters", [{"text": "ABC"}]),
        look("more", [{"text": "D"}], start="keep"),
        look("bell", [{"command": "bell"}]),
    ]
)


def run_of(board, strength=DUMP):
    """Yield the records of a run over `board` by an observer that sees all of its screen."""
    yield OptionSet("line", "on-line")
    bells = 0
    for step in PLAN.steps:
        yield StepBegun(step.id)
        if not step.continues:
            bells = board.screen().bells
        board.receive(step.data)
        yield Sent(step.id, step.data)
        shown = board.screen()
        seen = Answer(seen=shown.rows, cursor=shown.cursor, bells=shown.bells - bells)
        yield Answered(step.id, dataclasses.replace(seen, strength=strength))


def named(*faults, **options):
    return faults_that_show(PROFILE, PLAN, list(run_of(Board(PROFILE, faults), **options)))


@pytest.mark.parametrize(
    "fault", ["bank-0-data/stuck/0/1", "decoder/dead/bell", "column-counter/stuck/1/0"]
)
def test_the_fault_that_the_board_has_is_among_those_named(fault):
    found = named(fault)
    assert fault in found and len(found) < 60


def test_faults_that_show_something_else_are_not_named():
    assert "decoder/dead/bell" not in named("bank-0-data/stuck/0/1")
    assert {name.split("/")[0] for name in named("decoder/dead/bell")} == {"decoder"}


def test_screens_of_a_good_board_name_no_fault():
    assert named() == ()


def test_what_eyes_saw_names_no_fault():
    assert named("bank-0-data/stuck/0/1", strength=EYES) == ()
