"""What is told of a run whose texts changed."""

import dataclasses

import pytest

from helpers.bench import look, plan
from helpers.reports import step
from termprobe.report.text_words import texts_in_words, why_open
from termprobe.verdict.model import Changed, MayBeLost
from termprobe.verdict.texts import EarlierAnswer, TextInForce, TextsUsed

PLAN = dataclasses.replace(plan(look("a")), hash="0123456789abcdef")
TEXTS = (TextInForce(PLAN, "monday"), TextInForce(PLAN, "friday", 3, ("profile", "script")))


def told(*earlier, judged=(("a",), ())):
    used = TextsUsed(TEXTS, judged, earlier)
    return list(texts_in_words(used, lambda verdict: "dim" if verdict.verdict == "fail" else ""))


def test_each_text_says_since_when_it_held_and_what_was_judged_by_it():
    assert told() == [
        ("  1  ", "from monday, begun with, plan 0123456789ab"),
        ("     ", "1 step judged by it: a"),
        ("  2  ", "from friday, profile and script changed, plan 0123456789ab"),
        ("     ", "0 steps judged by it: none"),
    ]


@pytest.mark.parametrize(
    "now, words",
    [
        (None, "the step is no more"),
        ("unanswered", "the step was changed and is to be asked again"),
        ("pass", "the step was changed and asked again: pass"),
    ],
)
def test_an_answer_that_counts_no_more_says_what_became_of_its_step(now, words):
    failed, passed = step("fail", "a"), step("pass", "b")
    found = told(EarlierAnswer(1, failed, now), EarlierAnswer(1, passed, now))[-2:]
    assert found == [
        ("  -  ", f"a under text 1: fail (dim); {words}"),
        ("  -  ", f"b under text 1: pass; {words}"),
    ]


def test_a_step_that_is_open_again_says_why():
    assert "before the step was changed" in why_open(Changed())
    assert "among the lost records" in why_open(MayBeLost())
