"""JUnit XML by the schema of a server for continuous integration, and as others read it."""

import pathlib
from xml.etree import ElementTree

import junitparser
import pytest
import xmlschema

from helpers.reports import report, step
from helpers.whole_reports import whole_report
from termprobe.report.formats.junit import outcome, render
from termprobe.verdict.model import Blocked, Differing, Silent, Unfitted

SCHEMA = pathlib.Path(__file__).parent.parent / "junit-schema" / "junit-10.xsd"
WHOLE = render([whole_report(), report(step("pass"), verdict="pass")])


def test_it_is_valid_by_the_published_schema():
    xmlschema.validate(WHOLE, SCHEMA)


def test_another_program_counts_the_same():
    read = junitparser.JUnitXml.fromstring(WHOLE.encode())
    first, second = list(read)
    told = (first.tests, first.failures, first.errors, first.skipped)
    assert told == (6, 2, 1, 2)
    first.update_statistics()
    assert (first.tests, first.failures, first.errors, first.skipped) == told
    assert (second.tests, second.failures, second.errors) == (1, 0, 0)


def test_a_case_has_stage_title_time_and_why_it_failed():
    case = ElementTree.fromstring(WHOLE).find("testsuite/testcase")
    assert case.get("classname") == "termprobe.plain" and case.get("name") == "plain [look]"
    assert case.get("time") == "2.500"
    failure = case.find("failure")
    assert failure.get("message") == "1 cell differs" and failure.get("type") == "fail"
    assert case.findtext("system-out") == "noted 2026-01-02T03:04:06+00:00: plain"


def test_the_suite_has_the_first_page():
    suite = ElementTree.fromstring(WHOLE).find("testsuite")
    assert suite.get("timestamp") == "2026-01-02T03:04:05" and suite.get("time") == "300.000"
    named = {one.get("name"): one.get("value") for one in suite.iter("property")}
    assert named["Verdict"].startswith("FAIL: board plain failed 2 of 5 steps")
    assert named["SHA-256"] == "ab" * 32
    assert "1 of 1 readings lie within their limits" in suite.findtext("system-out")


@pytest.mark.parametrize(
    "verdict, because, kind",
    [
        ("pass", None, None),
        ("fail", None, "failure"),
        ("blocked", Blocked(("a",)), "skipped"),
        ("not-fitted", Unfitted("no bell"), "skipped"),
        ("blocked", Silent(Differing(1)), "error"),
        ("unanswered", None, "error"),
        ("unsure", None, "error"),
        ("disputed", None, "error"),
        ("skipped", None, "error"),
    ],
)
def test_what_keeps_a_board_from_passing_is_never_green(verdict, because, kind):
    own = step(verdict, because=because)
    found = outcome(own, report(own))
    assert (found and found.kind) == kind
