"""`termprobe session` as a program: which console it takes, and what it says at the end."""

import pytest

from helpers.program import BENCH, called, run_file
from termprobe.cli import session
from termprobe.journal.reading import read

SUPPLY = ("session", *BENCH, "--stage", "supply")


def answered(folder, typed, *words, port="sim:"):
    return called(*SUPPLY, "--port", port, "--out", folder, *words, input=typed)


def test_without_a_terminal_it_asks_at_plain_prompts_and_ends_with_the_verdict(tmp_path):
    done = answered(tmp_path, "yes\n5\n12\n-12\n0.01\n")
    path = run_file(tmp_path)
    assert (done.returncode, done.stderr) == (
        0,
        f"pass: 4 pass\nRun file: {path}    (termprobe report {path})\n",
    )
    assert "\x1b" not in done.stdout and done.stdout.count("Within limits.") == 4


@pytest.mark.parametrize(
    "typed, code, counts",
    [
        ("yes\n5\n", 4, "incomplete: 1 pass, 3 unanswered"),
        ("yes\n7\n", 1, "fail: 1 fail, 3 blocked"),
        ("", 4, "incomplete: 4 unanswered"),
    ],
)
def test_what_is_left_open_can_be_gone_on_with(tmp_path, typed, code, counts):
    done = answered(tmp_path, typed)
    path = run_file(tmp_path)
    assert done.returncode == code and done.stderr.startswith(f"{counts}\n")
    assert done.stderr.endswith(f"Go on with --resume {path}\n")
    assert done.stdout.endswith("\n"), "what is told at the end begins on a line of its own"


def test_a_run_that_is_resumed_says_how_far_it_was(tmp_path):
    answered(tmp_path, "yes\n5\n")
    done = answered(tmp_path, "yes\n12\n-12\n0.01\n", "--resume", run_file(tmp_path))
    assert done.returncode == 0
    assert done.stdout.startswith("The run goes on: 1 of 4 steps have an answer already.\n")


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
        return lambda bench, muted=(): held.append((kind, *muted)) or True

    monkeypatch.setattr(session, "is_full_screen", lambda: is_full)
    monkeypatch.setattr(session, "hold_full_screen", hold("full"))
    monkeypatch.setattr(session, "_hold_plain", hold("plain"))
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
