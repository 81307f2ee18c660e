"""How to go on with what ended early."""

import argparse
import importlib
import io
import pathlib
import shlex
import shutil

import pytest

from helpers.bench import look, plan
from helpers.paths import RUN_FILES
from termprobe.cli.console import Console
from termprobe.cli.resume import kept, resume_command, tell_resume
from termprobe.errors import LinkLostError
from termprobe.journal.records import AS_EXPECTED, DIFFERS, Answer, Answered
from termprobe.verdict.judge import judge
from termprobe.verdict.model import FAIL, PASS, SKIPPED, UNANSWERED

PATH = pathlib.Path("runs/x.run.jsonl")
COMMAND = "termprobe run --resume runs/x.run.jsonl --port sim:"


@pytest.mark.parametrize(
    "words, command",
    [
        (
            [
                "session",
                "--port",
                "/dev/tty USB0",
                "--board",
                "7",
                "--profile",
                "P",
                "--script",
                "S",
            ],
            "termprobe session --resume runs/x.run.jsonl --port '/dev/tty USB0'",
        ),
        (
            ["session", "--port", "sim:", "--speed", "1200", "--plain", "--stage", "bell"],
            "termprobe session --resume runs/x.run.jsonl --port sim: --speed 1200 --plain",
        ),
        (
            ["run", "--port", "sim:", "--dump", "grab --text", "--json"],
            "termprobe run --resume runs/x.run.jsonl --port sim: --dump 'grab --text' --json",
        ),
        (
            ["keys", "--port", "sim:", "--order", "free", "--wait", "2.5", "--quick"],
            "termprobe keys --resume runs/x.run.jsonl --port sim: --order free --wait 2.5",
        ),
        (
            ["keys", "--port", "sim:", "--resume", "old.run.jsonl"],
            "termprobe keys --resume runs/x.run.jsonl --port sim:",
        ),
    ],
)
def test_the_command_says_again_what_a_run_file_does_not_know(words, command):
    parser = argparse.ArgumentParser()
    importlib.import_module(f"termprobe.cli.{words[0]}").add_arguments(parser)
    arguments = parser.parse_args(words[1:])
    arguments.command = words[0]
    assert set(shlex.split(resume_command(arguments, PATH))) == set(shlex.split(command))
    again = parser.parse_args(shlex.split(command)[2:])
    assert again.resume == str(PATH) and again.port == arguments.port


@pytest.mark.parametrize("ending", [KeyboardInterrupt(), ValueError("odd")])
def test_whatever_ends_it_the_file_is_named_and_the_error_passes_through(ending):
    told = io.StringIO()
    with pytest.raises(type(ending)), kept(PATH, "walk", COMMAND, Console(told)):
        raise ending
    assert told.getvalue() == f"The walk so far is in {PATH}; go on with:\n  {COMMAND}\n"


@pytest.mark.parametrize(
    "ending, is_left",
    [(KeyboardInterrupt(), 1), (LinkLostError("gone"), 1), (ValueError("odd"), 0)],
)
def test_what_a_person_or_the_line_ends_leaves_its_page_too(tmp_path, ending, is_left):
    path = tmp_path / "7.run.jsonl"
    shutil.copy(RUN_FILES / "keys-quick.run.jsonl", path)
    told = io.StringIO()
    with pytest.raises(type(ending)), kept(path, "walk", COMMAND, Console(told)):
        raise ending
    assert told.getvalue().count(f"Report page: {tmp_path / '7.html'}\n") == is_left
    assert (tmp_path / "7.html").exists() == is_left


def test_nothing_is_told_of_what_reaches_its_end():
    told = io.StringIO()
    with kept(PATH, "run", COMMAND, Console(told)):
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
    tell_resume(judge(plan(*steps), records), COMMAND, Console(told))
    assert told.getvalue() == f"Go on with:\n  {COMMAND}\n" * is_told
