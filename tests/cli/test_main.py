"""The entry point: help of every command, words that nobody knows, mistakes, and what is loaded."""

import os
import subprocess
import sys

import pytest

from helpers.program import called, complaint
from termprobe.cli import main as entry
from termprobe.cli.main import COMMANDS, main
from termprobe.errors import UsageError
from termprobe.notation import visible

HEAVY = ("serial", "pyte", "prompt_toolkit", "numpy", "termprobe.diagnosis")
RUN = ("run", "--profile", "singlebyte-24x80", "--script", "acceptance")
ACTIONS = [[name, action] for name in ("profile", "script") for action in ("list", "show", "check")]
ALL_HELPS = [[], *([name] for name in COMMANDS), *ACTIONS]


def test_no_command_says_where_to_begin():
    done = called()
    assert done.returncode == 0 and done.stderr == ""
    for words in ("termprobe demo", "termprobe session", "sim:random", "termprobe --help"):
        assert words in done.stdout
    assert max(map(len, done.stdout.splitlines())) <= 80


def test_an_unknown_command_is_exit_code_2():
    assert called("frobnicate").returncode == 2
    assert called("--help").returncode == 0


@pytest.mark.parametrize("words", [["\x1b[2J"], ["ports", "\u202e\x9b"], ["explain", "--\udcff"]])
def test_words_that_nobody_knows_reach_the_console_with_nothing_raw_in_them(words, capsys):
    assert main(words) == 2
    told = capsys.readouterr().err
    assert all(visible(line) == line for line in told.split("\n")), told


@pytest.mark.parametrize("words", ALL_HELPS[1:], ids=" ".join)
def test_every_help_says_what_the_command_does_and_fits_80_columns(words, monkeypatch, capsys):
    monkeypatch.setenv("COLUMNS", "80")
    assert main([*words, "--help"]) == 0
    told = capsys.readouterr().out
    usage, described = told.split("\n\n")[:2]
    assert usage.startswith("usage: ") and described.endswith("."), described
    assert max(map(len, told.splitlines())) <= 80


def test_the_help_names_every_command_with_what_it_does(monkeypatch, capsys):
    monkeypatch.setenv("COLUMNS", "200")
    assert main(["--help"]) == 0
    told = {line.strip() for line in capsys.readouterr().out.splitlines()}
    assert all(
        any(line.split() == [name, *text.split()] for line in told)
        for name, text in COMMANDS.items()
    )


@pytest.mark.parametrize(
    "words",
    [["--version"], *([*words, "--help"] for words in ALL_HELPS)],
    ids=" ".join,
)
def test_neither_version_nor_help_loads_anything_heavy(words):
    code = (
        "import sys; from termprobe.cli.main import main; "
        f"assert main({words!r}) == 0; "
        f"sys.exit(' '.join(name for name in {HEAVY!r} if name in sys.modules) or 0)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, "")


@pytest.mark.parametrize(
    "words, where",
    [
        (
            ("session", "--port", "sim:", "--stge", "cursor"),
            'termprobe session --help`, not --stge cursor; for --stge nearest is "--stage"',
        ),
        (("profile", "list", "more"), "termprobe profile list --help`, not more"),
        (
            ("diagnose", "first.run.jsonl", __file__),
            "no more files must be named than `termprobe diagnose --help` says, and a pattern may "
            f"fit several; not {__file__} as well",
        ),
    ],
)
def test_a_word_that_a_command_does_not_know_is_named_with_where_to_look(words, where):
    done = called(*words)
    assert done.returncode == 2 and where in done.stderr and "Traceback" not in done.stderr


@pytest.mark.parametrize(
    "words, expected",
    [
        (("run", "--port", "sim:", "--board", "1"), "--profile must name a profile"),
        ((*RUN, "--port", "sim:"), "--board must give the serial number"),
        ((*RUN, "--port", "sim:bank-1-data/stuk/0/1", "--board", "1"), "nearest is"),
        (
            ("run", "--profile", "ecma48-24x80", *RUN[3:], "--port", "sim:", "--board", "1"),
            "circuit",
        ),
        ((*RUN, "--port", "sim:", "--board", "1", "--stage", "edge"), 'nearest is "edges"'),
        (("report", "/nonexistent.run.jsonl"), "/nonexistent.run.jsonl"),
    ],
)
def test_a_bad_command_line_is_one_line_and_exit_code_2(words, expected):
    assert expected in complaint(called(*words), 2)


def failing(error):
    """Return what stands for a command's module whose course ends with `error`."""

    class Module:
        @staticmethod
        def add_arguments(parser):
            pass

        @staticmethod
        def run(arguments):
            raise error

    return Module


@pytest.mark.parametrize(
    "error, code, words",
    [
        (UsageError("--x must be\x1b y"), 2, r"termprobe: --x must be\x1b y"),
        (KeyboardInterrupt(), 130, "termprobe: interrupted"),
        (MemoryError(), 4, "termprobe: there must be more memory than this computer has left"),
        (ValueError("odd"), 4, "a mistake in termprobe itself (ValueError: odd)"),
    ],
)
def test_whatever_ends_a_command_is_an_exit_code_and_a_plain_message(
    error, code, words, monkeypatch, capsys
):
    monkeypatch.delenv("TERMPROBE_DEBUG", raising=False)
    monkeypatch.setattr(entry.importlib, "import_module", lambda name: failing(error))
    assert main(["ports"]) == code
    told = capsys.readouterr()
    assert told.out == "" and words in told.err


def test_a_mistake_is_raised_where_it_is_looked_for(monkeypatch):
    monkeypatch.setenv("TERMPROBE_DEBUG", "1")
    monkeypatch.setattr(entry.importlib, "import_module", lambda name: failing(ValueError("odd")))
    with pytest.raises(ValueError, match="odd"):
        main(["ports"])


def test_a_reader_that_goes_away_is_no_mistake():
    reader, writer = os.pipe()
    os.close(reader)
    done = subprocess.run(
        [sys.executable, "-m", "termprobe.cli.main", "script", "show", "acceptance"],
        stdout=writer,
        stderr=subprocess.PIPE,
        text=True,
        check=False,
    )
    os.close(writer)
    assert "Traceback" not in done.stderr and "mistake" not in done.stderr


def test_where_nobody_reads_what_is_printed_it_ends_quietly():
    """As with `| head -1`; the exit code is that of shells for a program ended by SIGPIPE."""
    words = [sys.executable, "-m", "termprobe.cli.main", "baud"]
    program = subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    program.stdout.close()
    told = program.stderr.read()
    program.stderr.close()
    assert (program.wait(60), told) == (141, b"")
