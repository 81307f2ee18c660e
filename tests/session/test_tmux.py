"""Whole sessions in a real console, against a simulated board on a pseudo-terminal."""

import os
import pathlib
import pty
import re
import subprocess
import sys
import time

import pytest

from helpers.paths import TESTS
from helpers.served import TERMPROBE, ServedBoard
from helpers.tmux import IS_HERE, Tmux
from termprobe.journal.reading import read
from termprobe.journal.records import Finished, Stopped

pytestmark = pytest.mark.skipif(not IS_HERE, reason="tmux is not installed")
SCRIPT = TESTS / "helpers" / "bench_script.yaml"


def words(folder, port, *more):
    return (
        *TERMPROBE,
        "session",
        "--profile",
        "singlebyte-24x80",
        "--script",
        SCRIPT,
        "--port",
        port,
        "--board",
        "0007",
        "--revision",
        "B",
        "--out",
        folder / "runs",
        *more,
    )


def run_file(folder):
    (path,) = (folder / "runs").glob("*.run.jsonl")
    return path


@pytest.mark.parametrize("columns, rows", [(80, 24), (100, 32), (200, 60)])
def test_an_acceptance_at_one_key_a_look(tmp_path, columns, rows):
    with (
        ServedBoard(tmp_path) as board,
        Tmux(words(tmp_path, board.port), columns, rows, tmp_path) as console,
    ):
        console.wait("6 steps in 3 stages", "Press enter to begin")
        console.press("Enter", then=["It must read 4.75 to 5.25 V"])
        console.press("5", ".", "0", then=["+ 5 V is within"])
        console.press("Enter", then=["CAUTION", "Never plug or unplug"])
        console.press("Enter", then=["- A greeting", "y as expected", 'sends: SUB "HELLO"'])
        assert board.rows()[0].rstrip() == "HELLO"
        save(console.text(), columns, rows)
        console.press("y", then=["- A row of stars", "y as expected"])
        console.press("y", then=["- The corner", "y as expected"])
        assert board.rows()[23].rstrip() == "END"
        typing = ["- A word", "type    a n y RETURN", "type on the board's own keyboard"]
        console.press("y", then=typing)
        board.type("any")
        console.wait("The board's keyboard has proven y and n.")
        board.type("y")
        console.wait("- The last", "answer here or on the board's own keyboard")
        time.sleep(0.3)
        board.type("y")
        console.wait("Every step has its verdict: 6 pass")
        for line in console.text().split("\n"):
            assert len(line) <= columns
        console.press("q", then=["PASS: board 0007 passed 6 of 6 steps"])
        assert console.exit_code() == 0
    recording = read(run_file(tmp_path))
    assert not recording.damages and isinstance(recording.records[-1], Finished)


def is_interrupted(record):
    return isinstance(record, Stopped) and record.reason == "interrupted"


def save(text, columns, rows):
    """Keep the console where the environment asks for it; README.md shows two."""
    if folder := os.environ.get("TERMPROBE_CAPTURES"):
        pathlib.Path(folder).mkdir(exist_ok=True)
        pathlib.Path(folder, f"session-{columns}x{rows}.txt").write_text(text.rstrip("\n") + "\n")


def test_differences_stop_and_resume(tmp_path):
    with ServedBoard(tmp_path, "bank-1-data/stuck/3/0") as board:
        with Tmux(words(tmp_path, board.port), 100, 32, tmp_path) as console:
            console.wait("Press enter to begin")
            console.press("Enter", then=["It must read"])
            console.press("5", "Enter", then=["CAUTION"])
            console.press("Enter", then=["- A greeting", "y as expected"])
            console.press("y", then=["- A row of stars", "y as expected"])
            console.press("n", then=["Which of these is what you see?"])
            console.press("0", then=["marked: nothing yet"])
            console.press("Down", "r", then=["marked: row 1 columns 0-79"])
            console.press("Enter", then=["- The corner", "y as expected", "1 failed"])
            console.press("C-c", then=["FAIL: board", "Run file:"])
            assert console.exit_code() == 130
        path = run_file(tmp_path)
        assert is_interrupted(read(path).records[-1])
        report = subprocess.run(
            [*TERMPROBE, "report", path], capture_output=True, text=True, check=False
        ).stdout
        assert "what is seen there is not told" in " ".join(report.split()), report
        assert "arrives as" not in report, f"marks alone say nothing of bits:\n{report}"
        edited = tmp_path / "edited.yaml"
        edited.write_text(
            SCRIPT.read_text()
            .replace("Does HELLO stand", "Does a HELLO stand")
            .replace("Does LAST stand", "Does a LAST stand")
        )
        more = (*TERMPROBE, "session", "--resume", path, "--script", edited, "--port", board.port)
        with Tmux(more, 100, 32, tmp_path) as console:
            console.wait(
                "2 of 6 steps have an answer already",
                "asked again: A greeting",
                "not answered yet: The last",
            )
            console.press("Enter", then=["CAUTION"])
            console.press("Enter", then=["- A greeting", "y as expected"])
            console.press("y", then=["- The corner", "y as expected"])
            console.press("q", then=["Stop the session?"])
            console.press("y", then=["Run file:"])
            assert console.exit_code() == 1


def test_a_port_that_vanishes_and_comes_back(tmp_path):
    with (
        ServedBoard(tmp_path) as board,
        Tmux(words(tmp_path, board.port), 80, 24, tmp_path) as console,
    ):
        console.wait("Press enter to begin")
        console.press("Enter", then=["It must read"])
        console.press("5", "Enter", then=["CAUTION"])
        console.press("Enter", then=["- A greeting", "y as expected"])
        board.unplug()
        console.wait("THE LINE IS GONE", "Plug the adapter into")
        with ServedBoard(tmp_path) as again:
            console.wait("- A greeting", "the line is back", "y as expected")
            assert again.rows()[0].rstrip() == "HELLO"
            console.press("y", then=["- A row of stars", "y as expected"])
            console.press("C-c", then=["INCOMPLETE: board 0007 passed 2 of 6 steps"])
            assert console.exit_code() == 130


def test_without_colour_no_colour_is_sent_and_signs_remain(tmp_path):
    for environment, is_coloured in (({"NO_COLOR": "1"}, False), ({}, True)):
        folder = tmp_path / str(is_coloured)
        folder.mkdir()
        with Tmux(words(folder, "sim:"), 100, 32, folder, environment) as console:
            console.wait("Press enter to begin")
            console.press("Enter", then=["It must read"])
            console.press("9", then=["x 9 V is OUTSIDE"])
            coloured = re.findall(r"\x1b\[(?:[0-9;]*;)?3[1-7](?:;[0-9;]*)?m", console.text("-e"))
            assert bool(coloured) == is_coloured


def test_a_terminal_that_goes_away_leaves_a_valid_run_file(tmp_path):
    child, master = pty.fork()
    if child == 0:
        try:
            os.execvp(sys.executable, [str(word) for word in words(tmp_path, "sim:")])
        finally:
            os._exit(99)
    shown = b""
    while b"begin" not in shown:
        shown += os.read(master, 4096)
    os.write(master, b"\r")
    while b"5.25" not in shown:
        shown += os.read(master, 4096)
    os.close(master)
    assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 130
    recording = read(run_file(tmp_path))
    assert not recording.damages and is_interrupted(recording.records[-1])
