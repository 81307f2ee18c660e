"""The first page has what a record of production tests has, and what one would send."""

import dataclasses
import datetime

import pytest

from helpers.reports import report, step
from helpers.whole_reports import whole_report
from termprobe.journal.known_fault import KnownFault
from termprobe.report.facts.first_page import first_page
from termprobe.report.headline import Scope
from termprobe.verdict.model import RunVerdict, Unfitted

ZONE = datetime.timezone(datetime.timedelta(hours=1), "CET")


@pytest.mark.parametrize(
    "scope, faults, word, tone",
    [
        (Scope(), (), "PASS", "good"),
        (Scope(3), (), "PARTIAL", "open"),
        (Scope(is_practice=True), (), "PRACTICE, simulated board", "open"),
        (Scope(3, True), (), "PARTIAL (PRACTICE)", "open"),
    ],
)
def test_only_a_whole_plan_on_a_real_link_passes(scope, faults, word, tone):
    made = dataclasses.replace(report(step("pass"), verdict="pass"), scope=scope)
    found = first_page(made)
    assert (found.word, found.tone) == (word, tone)


def test_a_known_fault_stands_in_the_word():
    verdict = RunVerdict("fail", (step("fail"),), known_faults=(KnownFault("a/b"),))
    found = first_page(dataclasses.replace(report(step("fail")), verdict=verdict))
    assert (found.word, found.tone) == ("FAIL (WITH KNOWN FAULT)", "bad")


def test_it_names_what_records_of_production_tests_name():
    """Unit, design revision, operator, program and its revision, station link, times, result."""
    found = dict(first_page(whole_report("0042"), ZONE).identity)
    assert found["Board"] == "0042" and found["Revision"] == "C"
    assert found["Builder"] == "R. Example"
    assert found["Terminal"] == (
        "24 x 80 terminal, seven data bits, single-byte commands (singlebyte-24x80)"
    )
    assert found["Script"] == "All of it (acceptance), plan ffffffffffff"
    assert found["Date"] == "2 January 2026, 04:04 to 04:09 CET"
    assert found["Link"].startswith("sim: 9600 baud 7E1, practice, 04:04:05 to 04:04:05")
    assert found["Answered by"] == "not told 2 steps, 0042 1 step"
    assert found["Options"] == "echo off" and found["SHA-256"] == "ab" * 32
    assert found["Program"] == "0042" and found["After"] == "0042"


def test_what_is_not_told_is_said_to_be_so():
    made = report(step("pass"))
    board = dataclasses.replace(made.header.board, revision="", builder="")
    header = dataclasses.replace(made.header, board=board)
    found = dict(first_page(dataclasses.replace(made, header=header)).identity)
    assert (found["Revision"], found["Builder"]) == ("not told", "not told")


def test_nobody_answers_a_step_that_is_not_fitted():
    made = report(step("pass", observer="builder", answers=1), step("not-fitted", "b", answers=1))
    assert dict(first_page(made, ZONE).identity)["Answered by"] == "builder 1 step"


def test_what_was_not_tried_is_told_and_what_is_not_there_is_one_line():
    lacking = [step("not-fitted", f"n{number}", because=Unfitted("x")) for number in range(35)]
    steps = [step("pass"), step("unanswered", "u"), step("skipped", "s", title="Bell"), *lacking]
    made = dataclasses.replace(report(*steps, verdict="incomplete"), not_covered=("handshake",))
    found = first_page(dataclasses.replace(made, scope=Scope(2)))
    assert found.not_tried == (
        ("left out", "2 steps of the script are no part of this run"),
        ("unanswered", "1 step: The serial line 1"),
        ("skipped", "1 step: Bell"),
        ("", "handshake"),
    )
    assert found.not_there == (
        "35 steps of the script try what this terminal does not have: single steps of 1 stage"
    )
    assert found.totals == "3 steps: 1 pass, 1 unanswered, 1 skipped"
