"""A report is made from a run that was read back: options, end and remarks are found in it."""

import pytest

from helpers.bench import HEADER, look, plan
from helpers.bench_plan import PROFILE
from termprobe.journal.reading import Recording
from termprobe.journal.records import (
    Header,
    Linked,
    LinkUsed,
    Noted,
    OptionSet,
    Resumed,
    SentLate,
)
from termprobe.report.record import run_report
from termprobe.verdict.judge import judge

PLAN = plan(look("a"))


def reported(*records, **header):
    header = Header(HEADER.board, **header)
    recording = Recording(header, records, ("byte 9: a damaged record",))
    verdict = judge(PLAN, records)
    return run_report("a.run.jsonl", header, recording, PLAN, verdict, PROFILE)


def test_options_stand_as_last_set_and_by_name():
    records = [OptionSet("echo", "off"), OptionSet("duplex", "half"), OptionSet("echo", "on")]
    assert reported(*records).options == (("duplex", "half"), ("echo", "on"))


def test_a_run_ended_with_its_last_record():
    assert reported(Noted("a", at="monday"), Noted("b", at="tuesday")).ended == "tuesday"
    assert reported().ended == ""


def test_what_was_read_is_handed_on():
    found = reported()
    assert (found.path, found.plan, found.header.board) == ("a.run.jsonl", PLAN, HEADER.board)
    assert found.verdict.steps[0].verdict == "unanswered"
    assert found.damages == ("byte 9: a damaged record",)


def test_another_plan_is_remarked():
    assert reported(plan_hash=PLAN.hash).notes == reported(plan_hash=None).notes == ()
    (changed,) = reported(plan_hash="0" * 64).notes
    assert changed.startswith("the plan was compiled by another version of termprobe")


def test_characters_that_were_sent_late_are_remarked_for_each_link():
    first, second = reported(SentLate(160, 3, 0.0021), SentLate(7, 1, 0.5)).notes
    assert first == (
        "3 of 160 characters were sent late, by 2.1 ms at most: this computer was busy. "
        "No fault of the board"
    )
    assert second.startswith("1 of 7 characters were sent late, by 500 ms at most")


@pytest.mark.parametrize(
    "records, fields, is_practice",
    [
        ([], {"link": LinkUsed("/dev/ttyUSB0")}, False),
        ([], {"link": LinkUsed("sim:")}, True),
        ([], {"link": LinkUsed("/dev/ttyUSB0"), "practice": 7}, True),
        ([Resumed(), Linked(LinkUsed("sim:"))], {"link": LinkUsed("/dev/ttyUSB0")}, True),
    ],
)
def test_a_run_over_any_simulated_board_is_a_practice(records, fields, is_practice):
    assert reported(*records, **fields).scope.is_practice == is_practice
