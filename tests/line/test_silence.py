"""The table of causes: each answers known questions, and no two in the same way."""

import re
from itertools import combinations

from termprobe.line.silence import CAUSES, QUESTIONS

NAMES = [question.name for question in QUESTIONS]


def test_causes_answer_questions_that_there_are():
    assert all(set(cause.answers) <= set(NAMES) for cause in CAUSES)
    assert len(set(NAMES)) == len(NAMES) and len({cause.name for cause in CAUSES}) == len(CAUSES)


def test_any_two_causes_answer_some_question_differently():
    for one, other in combinations(CAUSES, 2):
        both = one.answers.keys() & other.answers.keys()
        assert any(one.answers[name] != other.answers[name] for name in both), (one, other)


def test_no_question_leans_on_another_since_any_may_come_before_it():
    leaning = re.compile(r"\b(?:still|again|with (?:that|this))\b", re.IGNORECASE)
    found = [question.text for question in QUESTIONS if leaning.search(question.text)]
    assert found == []


def test_a_question_ends_so_and_a_remedy_says_what_to_do():
    assert all(question.text.endswith("?") and question.seconds > 0 for question in QUESTIONS)
    assert all(cause.cases > 0 and cause.remedy.endswith(".") for cause in CAUSES)
