"""What is said of a run that comes after another: the order, new faults first, and all changes."""

import dataclasses

import pytest

from helpers.reports import report, step
from termprobe.journal.comes_after import ComesAfter
from termprobe.report.after_words import changes_in_words, new_faults_in_words, order_in_words
from termprobe.report.changes import Changes
from termprobe.report.formats import json, text

AFTER = ComesAfter(
    "b.run.jsonl", failed=("a",), first=("r", "a"), sharing=("c", "d"), blocks=("x",)
)


@pytest.mark.parametrize(
    "after, told",
    [
        (
            AFTER,
            "In b.run.jsonl 1 step failed. Asked first: what failed there, behind 1 that it needs; "
            "next 2 steps on the same part of the circuit (x); then the rest in order.",
        ),
        (
            ComesAfter("b", failed=("a", "b"), first=("a", "b")),
            "In b 2 steps failed. Asked first: what failed there; then the rest in order.",
        ),
        (ComesAfter("b"), "In b nothing failed: all is asked in the order of the script."),
    ],
)
def test_the_order_is_told_in_a_sentence(after, told):
    assert order_in_words(after) == told


def test_new_faults_have_a_line_of_their_own_right_below_the_headline():
    changes = Changes(AFTER, mended=("a",), new_faults=("e", "f"))
    made = dataclasses.replace(report(step("fail")), changes=changes)
    told = "NEW since b.run.jsonl: 2 steps passed there, not here: e; f."
    assert new_faults_in_words(changes) == told and text.page(made).splitlines()[1] == told
    assert new_faults_in_words(Changes(AFTER)) == new_faults_in_words(None) == ""
    assert "NEW" not in text.page(report(step("fail")))


def test_the_section_tells_each_kind_of_change_new_faults_first():
    changes = Changes(AFTER, ("a", "b"), ("c",), ("d",), ("e",), ("f",), 3)
    assert list(changes_in_words(changes, str.upper)) == [
        "What changed since b.run.jsonl",
        "passed then, FAIL now: 1 step: D",
        "failed then, FAIL now as well: 1 step: C",
        "failed then, pass now: 2 steps: A; B",
        "failed then, not proven by now: 1 step: F",
        "no verdict then, FAIL now: 1 step: E",
        "passed then, not asked again yet: 3",
    ]
    assert list(changes_in_words(Changes(AFTER)))[-1] == "nothing: what passed then passes now"
    assert list(changes_in_words(None)) == []


def test_the_json_document_tells_the_same():
    changes = Changes(AFTER, ("a",), ("b",), ("c",), ("d",), ("e",), 2)
    made = dataclasses.replace(report(step("fail")), changes=changes)
    told = json.run_document(made)["after"]
    assert told["run"] == "b.run.jsonl" and told["passed_then_fail_now"] == ["c"]
    assert told["failed_then_not_proven_now"] == ["e"] and told["passed_then_not_proven_now"] == 2
    assert "after" not in json.run_document(report(step("fail")))
