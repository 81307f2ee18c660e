"""Why nothing shows or comes, asked at prompts."""

import json

from helpers.program import called, complaint
from termprobe.line.silence import CAUSES
from termprobe.line.silence_search import next_question


def typed_for(cause):
    """Return what somebody types whose terminal has that cause; nothing where it may be either."""
    answers, typed = {}, ""
    while question := next_question(answers):
        answers[question.name] = cause.answers.get(question.name)
        typed += {True: "y", False: "n", None: ""}[answers[question.name]] + "\n"
    return typed


def cause_called(name):
    return next(cause for cause in CAUSES if cause.name == name)


def test_a_cause_is_named_with_what_to_do_behind_the_cautions():
    cause = cause_called("minus-supply")
    done = called("link", "--silent", input=typed_for(cause))
    assert done.returncode == 0 and done.stdout.index("CAUTION") < done.stdout.index(cause.title)
    assert "-0.6 V means" in done.stdout.replace("\n      ", " ")


def test_the_document_ranks_all_causes_and_keeps_the_answers():
    cause = cause_called("handshake")
    done = called("link", "--silent", "--json", input=typed_for(cause))
    told = json.loads(done.stdout)
    assert told["cause"] == "handshake" and told["causes"][0]["cause"] == "handshake"
    assert len(told["causes"]) == len(CAUSES) and told["answers"]["shows"] is True


def test_another_word_is_asked_again_and_the_end_of_the_input_says_what_is_known():
    done = called("link", "--silent", input="perhaps\nn\nn\n")
    assert "It must be y, n, or ENTER" in done.stdout and done.returncode == 4
    assert "the board has no supply" in done.stdout


def test_without_any_answer_it_is_refused():
    assert "must have a keyboard, or answers" in complaint(called("link", "--silent"), 2)
