"""Few questions, the cheap ones first, end in the right cause, also where one answer is wrong."""

import random

import pytest

from termprobe.line.silence import CAUSES, QUESTIONS
from termprobe.line.silence_search import leader, next_question, probabilities

MOST = 10


def asked(answer):
    """Return the answers to all that is asked, given by `answer` of a question's name."""
    answers = {}
    while question := next_question(answers):
        answers[question.name] = answer(question.name)
    return answers


@pytest.mark.parametrize("cause", CAUSES, ids=lambda cause: cause.name)
def test_answered_as_a_cause_would_it_is_named_after_few_questions(cause):
    answers = asked(cause.answers.get)
    found, probability = leader(answers)
    assert found is cause and probability > 0.5 and len(answers) <= MOST


def test_over_all_published_cases_it_takes_six_or_seven_questions():
    cases = [cause for cause in CAUSES for _ in range(cause.cases)]
    counts = [len(asked(cause.answers.get)) for cause in cases]
    assert sum(counts) / len(counts) < 7


def test_cheap_questions_come_first_and_what_is_dear_only_where_it_must():
    seconds = {question.name: question.seconds for question in QUESTIONS}
    for cause in CAUSES:
        first, *_ = asked(cause.answers.get)
        assert seconds[first] <= 5
    dear = [cause.name for cause in CAUSES if "clock" in asked(cause.answers.get)]
    assert dear == ["uart-clock"]


def test_one_wrong_answer_in_twenty_still_ends_in_the_right_cause_mostly():
    chance, right = random.Random(5), 0
    drawn = chance.choices(CAUSES, [cause.cases for cause in CAUSES], k=300)
    for cause in drawn:

        def answer(name, cause=cause):
            true = cause.answers.get(name, chance.random() < 0.5)
            return true != (chance.random() < 0.05)

        right += leader(asked(answer))[0] is cause
    assert right / len(drawn) > 0.8


def test_what_nobody_can_answer_changes_nothing_and_is_not_asked_again():
    assert probabilities({"lit": None}) == pytest.approx(probabilities({}))
    answers = asked(lambda name: None)
    assert len(answers) <= len(QUESTIONS) and next_question(answers) is None
    assert leader(answers)[0].name == "keyboard", "the most common of all"


def test_probabilities_sum_to_one():
    assert sum(probabilities({"shows": False, "local": True}).values()) == pytest.approx(1)
