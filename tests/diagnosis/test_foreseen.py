"""What a board with known faults is expected to show is what such a board shows."""

import pytest

from helpers.scripts import ECMA, SINGLE, acceptance
from helpers.virtual_builders import looks_to_play
from termprobe.board.board import Board
from termprobe.board.faults.catalogue import fault
from termprobe.diagnosis.foreseen import foreseen
from termprobe.journal.records import Sent, StepBegun
from termprobe.terminal.screen import UNKNOWN_CHARACTER, differences

STUCK, SECOND = "bank-0-data/stuck/2/0", "margin/no-wrap"


def shown(names, real=None, count=8):
    """Yield (look, what is foreseen with `names`, what a board with `real` shows, its bells)."""
    plan = acceptance()
    board = Board(SINGLE, [fault(SINGLE, name) for name in real or names], seed=7)
    records, before = [], 0
    for step in looks_to_play(plan)[:count]:
        records.append(StepBegun(step.id, step.hash))
        if not step.continues:
            before = board.bells
        for group in step.groups:
            board.receive(group.data)
            records.append(Sent(step.id, group.data))
        found = foreseen(SINGLE, plan, records, step, names)
        yield step, found, board.screen(), board.bells - before


@pytest.mark.parametrize("names", [[STUCK], [STUCK, SECOND], ["decoder/dead/clear"]])
def test_what_is_foreseen_is_what_a_board_with_the_faults_shows(names):
    seen = 0
    for step, found, screen, bells in shown(names):
        if found is None:
            assert screen.rows == step.expected.rows
            continue
        seen += 1
        assert not differences(found.rows, screen.rows)
        assert found.cursor in (None, screen.cursor) and found.bells == bells
        assert found.faults == tuple(names)
    assert seen


def test_of_cells_that_are_as_at_power_up_nothing_is_foreseen():
    _, found, *_ = next(shown(["clear/bank-0-skipped"]))
    assert UNKNOWN_CHARACTER in "".join(found.rows)


def test_a_second_fault_is_seen_against_the_first():
    pairs = shown([STUCK], [STUCK, "bank-1-data/stuck/5/1"])
    assert any(found and differences(found.rows, screen.rows) for _, found, screen, _ in pairs)


def test_nothing_is_foreseen_of_faults_that_are_not_known_and_without_a_circuit():
    step = looks_to_play(acceptance())[0]
    assert foreseen(SINGLE, acceptance(), [], step, ["no-such/fault"]) is None
    other = acceptance(ECMA)
    assert foreseen(ECMA, other, [], looks_to_play(other)[0], [STUCK]) is None
