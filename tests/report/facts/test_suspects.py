"""Suspects by their titles, with what speaks for and against each."""

import dataclasses

import pytest

from helpers.reports import report, step
from helpers.whole_reports import whole_report
from termprobe.diagnosis.key_conclusion import Conclusion
from termprobe.diagnosis.model import Diagnosis
from termprobe.profile.load import load
from termprobe.report.facts.suspects import suspects
from termprobe.report.key_findings import KeyFindings

KEYBOARD = load("singlebyte-24x80").keyboard


def test_steps_are_called_by_their_titles():
    (found,) = suspects(whole_report("odd"))
    (one,) = found.suspects
    assert (one.percent, one.title, one.supports) == (97, "odd", ("odd",))
    assert found.what == "the board" and found.next == ("Left",)
    assert "Probe odd, while it is in use: odd." in found.probes


@pytest.mark.parametrize(
    "explained, words", [(True, "speaks for no fault"), (False, "speaks for no fault")]
)
def test_where_there_are_none_it_says_so(explained, words):
    made = dataclasses.replace(report(step("fail")), diagnosis=Diagnosis("fail", explained))
    (found,) = suspects(made)
    assert words in found.note and found.suspects == ()


def test_a_keyboard_without_a_fault_says_how_far_that_goes():
    keys = KeyFindings(KEYBOARD, Conclusion(True, True))
    made = dataclasses.replace(report(step("pass"), verdict="pass"), keys=keys)
    (found,) = suspects(made)
    assert found.what == "the keyboard"
    assert found.note == "none of the keyboard; its presses speak for no fault"
    odd = KeyFindings(KEYBOARD, Conclusion(True, True, odd=("press/q",)))
    (found,) = suspects(dataclasses.replace(made, keys=odd))
    assert "what came of press/q. A slip of the hand does" in found.note


def test_a_run_that_says_nothing_has_none():
    assert suspects(report(step("pass"))) == ()
