"""How attention checks are told: how many were noticed, and what that is worth."""

import dataclasses

from helpers.reports import report, step
from termprobe.journal.attention import AttentionChecked, AttentionWanted
from termprobe.journal.records import AS_EXPECTED, DIFFERS, UNSURE, Answer
from termprobe.report.attention_words import AttentionChecks, attention_checks, checks_in_words
from termprobe.report.formats import json, text

RECORDS = [
    AttentionWanted(0.1, 3),
    AttentionChecked("a", Answer(DIFFERS)),
    AttentionChecked("b", Answer(AS_EXPECTED)),
    AttentionWanted(0.2, 5),
    AttentionChecked("c", Answer(UNSURE)),
]
CHECKS = AttentionChecks(0.2, 5, ("a",), ("b",), ("c",))


def test_they_are_counted_by_their_answers():
    assert attention_checks(RECORDS) == CHECKS and attention_checks(RECORDS[1:3]) is None


def test_a_report_tells_how_many_were_noticed_and_why_the_usual_share_stands():
    assert checks_in_words(CHECKS) == (
        "1 of 2 screens that were wrong on purpose were noticed; taken for right in the "
        "place of b; 1 neither. They count neither for nor against the board. Fewer than 10 tell "
        "too little of how often a wrong screen is missed, so that the usual share is reckoned "
        "with."
    )
    made = dataclasses.replace(report(step("pass")), checks=CHECKS)
    assert "\n1 of 2 screens that were wrong on purpose" in text.page(made)
    assert json.run_document(made)["attention"]["missed"] == ["b"]


def test_without_checks_nothing_is_told():
    assert checks_in_words(None) == "" and "on purpose" not in text.page(report(step("pass")))
    assert "attention" not in json.run_document(report(step("pass")))
    assert "no screen that was wrong on purpose was answered" in checks_in_words(
        AttentionChecks(0.1, 1)
    )


def test_enough_checks_are_said_to_weigh():
    many = AttentionChecks(1.0, 1, tuple("abcdefghij"))
    assert "weighed by this share of misses" in checks_in_words(many)
