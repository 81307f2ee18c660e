"""After a failed run the steps are found that exercise the block that may be at fault."""

import functools

from helpers.scripts import SINGLE, look, plan_of
from helpers.virtual_builders import Reader, records_of
from termprobe.board.faults.catalogue import fault
from termprobe.diagnosis.dictionary import fault_dictionary
from termprobe.diagnosis.sharing import Sharing, sharing
from termprobe.verdict.judge import judge

PLAN = plan_of(
    [
        look("word", [{"text": "HELLO"}]),
        look("up", [{"command": "down"}, {"command": "up"}, {"text": "B"}]),
        look("left", [{"text": "AB"}, {"command": "left"}, {"text": "C"}]),
    ]
)


@functools.cache
def dictionary():
    return fault_dictionary(SINGLE, PLAN)


def found(*faults, boards=True):
    records = records_of(SINGLE, PLAN, [fault(SINGLE, name) for name in faults], Reader())
    known = dictionary() if boards else None
    return sharing(SINGLE, PLAN, records, judge(PLAN, records), known)


def test_the_steps_that_share_the_block_of_the_fault_are_told_without_those_that_failed():
    assert found("decoder/dead/up") == Sharing(("decoder",), ("word", "left"))


def test_where_nothing_failed_nothing_is_shared():
    assert found() == Sharing()


def test_where_no_board_is_simulated_no_block_is_known():
    assert found("decoder/dead/up", boards=False).steps == ()
