"""`termprobe session` as a program: which console it takes, and what it says at the end."""

import json

import pytest

from helpers.program import BENCH, called, run_file
from termprobe.cli import held_session as session
from termprobe.journal.attention import AttentionChecked, AttentionWanted
from termprobe.journal.reading import read

SUPPLY = ("session", *BENCH, "--stage", "supply")


def answered(folder, typed, *words, port="sim:"):
    return called(*SUPPLY, "--port", port, "--out", folder, *words, input=typed)


def test_without_a_terminal_it_asks_at_plain_prompts_and_ends_with_the_verdict(tmp_path):
    done = answered(tmp_path, "yes\n5\n12\n-12\n0.01\n")
    path = run_file(tmp_path)
    first, *_, counted, last, page = done.stderr.splitlines()
    assert done.returncode == 0 and first.startswith("PARTIAL (PRACTICE): board 0001: Supply")
    assert (counted, last) == ("4 pass", f"Run file: {path}    (termprobe report {path})")
    assert page == f"Report page: {path.with_name(path.name.removesuffix('.run.jsonl'))}.html"
    assert "\x1b" not in done.stdout and done.stdout.count("Within limits.") == 4


@pytest.mark.parametrize(
    "typed, code, counts",
    [
        ("yes\n5\n", 4, "1 pass, 3 unanswered"),
        ("yes\n7\n", 1, "1 fail, 3 blocked"),
        ("", 4, "4 unanswered"),
    ],
)
def test_what_is_left_open_can_be_gone_on_with(tmp_path, typed, code, counts):
    done = answered(tmp_path, typed)
    path = run_file(tmp_path)
    assert done.returncode == code and f"\n{counts}\n" in done.stderr
    command = f"termprobe session --resume {path} --port sim:"
    assert done.stderr.endswith(f"Go on with:\n  {command}\n")
    assert done.stdout.endswith("\n"), "what is told at the end begins on a line of its own"


def test_what_was_noted_and_measured_again_reaches_the_report(tmp_path):
    answered(tmp_path, "yes\nnote\nsmells burnt\n5.5\nm\n5\n12\n-12\n0.01\n")
    path = run_file(tmp_path)
    text = called("report", path).stdout
    assert "second reading; first 5.5 V" in text
    assert text.count("smells burnt") == 2 and "\nNoted during the run\n" in text
    document = json.loads(called("report", path, "--format", "json").stdout)
    (note,) = document["notes"]
    assert (note["step"], note["text"]) == ("supply-5v", "smells burnt") and note["time"]
    by_id = {step["id"]: step for step in document["steps"]}
    (first,) = by_id["supply-5v"]["earlier"]
    assert first["verdict"] == "fail" and first["reason"].startswith("5.5 V, outside")


def test_a_keyboard_stage_ends_with_the_drawing_and_the_suspects(tmp_path):
    keys = ("keys", "--profile", "singlebyte-24x80", "--quick", "--board", "1")
    port = "sim:keyboard-code/stuck/0/0"
    called(*keys, "--port", port, "--out", tmp_path)
    done = called("session", "--resume", run_file(tmp_path), "--port", port, input="")
    assert done.returncode == 1 and "|ESC " in done.stderr
    assert "\nSuspects\n" in done.stderr and "keyboard-code/stuck/0/0" in done.stderr
    assert done.stderr.index("Suspects") < done.stderr.index("Run file: ")


def test_a_run_that_is_resumed_says_how_far_it_was(tmp_path):
    answered(tmp_path, "yes\n5\n")
    done = answered(tmp_path, "yes\n12\n-12\n0.01\n", "--resume", run_file(tmp_path))
    assert done.returncode == 0
    assert done.stdout.startswith("The run goes on: 1 of 4 steps have an answer already.\n")


SCRIPT = """\
id: words
title: Five words
stages:
  - id: words
    title: Words
    steps:
"""
STEP = """\
      - id: word-{number}
        kind: look
        title: Word {number}
        question: Does the word stand in the corner?
        send: [{{text: WORD {number}}}]
"""
LOOKS = ("session", "--profile", "club-16x64", "--board", "7", "--plain")


@pytest.fixture(name="words", scope="module")
def _words(tmp_path_factory):
    """Return the words of a session with a script of five small looks."""
    path = tmp_path_factory.mktemp("script") / "words.yaml"
    path.write_text(SCRIPT + "".join(STEP.format(number=number) for number in range(5)))
    return (*LOOKS, "--script", path)


@pytest.fixture(name="checked", scope="module")
def _checked(words, tmp_path_factory):
    """Return (the ended session of a builder who always says yes but once, its run file).

    Before each look a wrong screen is shown; the first is noticed.
    """
    folder = tmp_path_factory.mktemp("checked")
    words = (*words, "--port", "sim:", "--out", folder, "--attention", "1")
    return called(*words, input="n\n\n" + "y\n" * 20), run_file(folder)


def test_wrong_screens_are_told_once_they_are_answered_and_do_not_count(checked):
    done, path = checked
    assert done.returncode == 0, done.stderr
    assert "PRACTICE, simulated board: board 7 passed" in done.stderr
    assert done.stdout.count("That was a check: the screen was wrong on purpose") >= 4
    assert done.stdout.count("and you saw it") == 1
    document = json.loads(called("report", path, "--format", "json").stdout)
    attention = document["attention"]
    assert attention["rate"] == 1 and len(attention["caught"]) == 1 and attention["missed"]
    records = read(path).records
    assert [one.seed for one in records if isinstance(one, AttentionWanted)] == [attention["seed"]]


def test_checks_go_on_with_the_same_seed_and_none_is_made_twice(checked, tmp_path):
    lines = checked[1].read_bytes().splitlines(keepends=True)
    third = [n for n, line in enumerate(lines) if b'"kind":"answer"' in line][1]
    path = tmp_path / "cut.run.jsonl"
    path.write_bytes(b"".join(lines[: third + 1]))
    done = called("session", "--resume", path, "--port", "sim:", "--plain", input="y\n" * 20)
    assert done.returncode == 0, done.stderr
    checks = [one.step for one in read(path).records if isinstance(one, AttentionChecked)]
    before = [one.step for one in read(checked[1]).records if isinstance(one, AttentionChecked)]
    assert checks == before


@pytest.mark.parametrize("share", ["0", "1.5", "often"])
def test_a_share_that_is_none_is_refused(words, share):
    assert "more than 0 and at most 1" in called(*words, "--attention", share).stderr


def test_at_prompts_it_is_told_that_a_cause_is_searched_for(words, tmp_path):
    words = (*words, "--port", "sim:decoder/dead/clear", "--out", tmp_path)
    done = called(*words, input="n\n\nstop\n")
    assert done.stdout.count("working out what would explain it ...") == 1


def test_at_its_end_the_cause_stands_with_what_to_do_next(words, tmp_path):
    words = (*words, "--port", "sim:decoder/dead/clear", "--out", tmp_path)
    told = " ".join(called(*words, input="n\n\nn\n\nstop\n").stderr.split())
    assert "Cause: " in told and told.index("Cause: ") < told.index("Run file: ")
    assert "failed by it. " in told and "Next: " in told


def test_a_practice_does_not_tell_its_fault(tmp_path):
    done = answered(tmp_path, "yes\n5\n", port="sim:random")
    header = read(run_file(tmp_path)).header
    assert header.link.name == "sim:" and header.practice is not None
    assert "fault" not in done.stdout + done.stderr


@pytest.mark.parametrize(
    "is_full, words, called_so",
    [
        (True, (), ("full",)),
        (True, ("--mute", "looks"), ("full", "looks")),
        (True, ("--plain",), ("plain",)),
        (False, (), ("plain",)),
    ],
)
def test_a_full_screen_is_taken_where_there_is_one_and_it_is_wanted(
    tmp_path, monkeypatch, is_full, words, called_so
):
    held = []

    def hold(kind):
        return lambda bench, *_, muted=(): held.append((kind, *muted)) or True

    monkeypatch.setattr(session, "is_full_screen", lambda: is_full)
    monkeypatch.setattr(session, "hold_full_screen", hold("full"))
    monkeypatch.setattr(session, "_hold_plain", lambda bench, going_on: hold("plain")(bench))
    from termprobe.cli.main import main

    assert main([*SUPPLY, "--port", "sim:", "--out", str(tmp_path), *words]) == 130
    assert held == [called_so]


class Gone:
    """A console that was closed."""

    def write(self, text):
        raise OSError("gone")

    def flush(self):
        raise OSError("gone")


def test_a_console_that_has_gone_changes_nothing_of_the_verdict(tmp_path, monkeypatch):
    from termprobe.cli.main import main

    monkeypatch.setattr(session, "is_full_screen", lambda: True)
    monkeypatch.setattr(session, "hold_full_screen", lambda bench, muted: False)
    monkeypatch.setattr("sys.stdout", Gone())
    monkeypatch.setattr("sys.stderr", Gone())
    assert main([*SUPPLY, "--port", "sim:", "--out", str(tmp_path)]) == 4
