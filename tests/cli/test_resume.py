"""How to go on with what ended early."""

import io
import pathlib

import pytest

from helpers.bench import look, plan
from termprobe.cli.console import Console
from termprobe.cli.resume import kept, tell_resume
from termprobe.journal.records import AS_EXPECTED, DIFFERS, Answer, Answered
from termprobe.verdict.judge import judge
from termprobe.verdict.model import FAIL, PASS, SKIPPED, UNANSWERED

PATH = pathlib.Path("runs/x.run.jsonl")


@pytest.mark.parametrize("ending", [KeyboardInterrupt(), ValueError("odd")])
def test_whatever_ends_it_the_file_is_named_and_the_error_passes_through(ending):
    told = io.StringIO()
    with pytest.raises(type(ending)), kept(PATH, "walk", Console(told)):
        raise ending
    assert told.getvalue() == f"The walk so far is in {PATH}; go on with --resume {PATH}\n"


def test_nothing_is_told_of_what_reaches_its_end():
    told = io.StringIO()
    with kept(PATH, "run", Console(told)):
        pass
    assert told.getvalue() == ""


@pytest.mark.parametrize(
    "words, is_told",
    [((PASS, FAIL), False), ((FAIL, UNANSWERED), True), ((PASS, SKIPPED), True), ((PASS,), False)],
)
def test_what_leaves_anything_to_do_can_be_gone_on_with(words, is_told):
    told = io.StringIO()
    answers = {PASS: AS_EXPECTED, FAIL: DIFFERS, SKIPPED: SKIPPED}
    steps = [look(f"s{number}") for number in range(len(words))]
    records = [
        Answered(step.id, Answer(answers[word]))
        for step, word in zip(steps, words, strict=True)
        if word in answers
    ]
    tell_resume(judge(plan(*steps), records), PATH, Console(told))
    assert told.getvalue() == f"Go on with --resume {PATH}\n" * is_told
