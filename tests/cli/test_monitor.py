"""`termprobe monitor` over lines that loop back, between two ports, and read by other commands."""

import os
import threading

import pytest

from helpers.lines import PtyBoard
from helpers.program import called, complaint


def monitored(*words, time="0.2"):
    return called("monitor", "--for", time, *words)


def test_what_is_sent_and_what_comes_is_shown_and_logged_for_others(tmp_path):
    log = tmp_path / "a.log"
    words = ("--port", "loop://", "--send", '"HELLO" CR LF', "--log", log)
    done = monitored(*words)
    assert done.returncode == 0, done.stderr
    rows = done.stdout.splitlines()
    assert rows[1].endswith('-->  "HELLO" CR LF') and rows[2].endswith('<--  "HELLO" CR LF')
    assert rows[-1].startswith("7 bytes to the board, 7 from it")
    screen = called("render", "--profile", "singlebyte-24x80", "--from", log)
    assert screen.stdout.splitlines()[2].startswith(" 0|HELLO")
    cause = called("explain", "--profile", "singlebyte-24x80", "--from", log, "--seen", "HELLO")
    assert cause.returncode == 0 and "Nothing to explain" in cause.stdout
    assert "must be a new file" in complaint(monitored(*words), 2)


def test_between_a_computer_and_the_board_all_is_passed_on_and_shown():
    board, computer = PtyBoard(), PtyBoard()
    held = [os.open(end.path, os.O_RDWR | os.O_NOCTTY) for end in (board, computer)]

    def talk():
        assert board.take() == b"?"
        computer.reply(b"\x1b=")
        board.reply(b"YES " + board.take())

    threading.Thread(target=talk, daemon=True).start()
    words = ("--port", board.path, "--through", computer.path, "--send", "?")
    done = monitored(*words, time="0.6")
    answered = computer.take() if computer.wait(0) else b""
    for end in held:
        os.close(end)
    assert answered == b"YES \x1b="
    assert 'ESC "="' in done.stdout and '<--  "YES " ESC "="' in done.stdout


@pytest.mark.parametrize(
    "words, wanted",
    [
        ((), "--port must name the port of the board"),
        (("--port", "sim:"), "--profile must say which board"),
        (("--port", "loop://", "--send", "\u00e9"), "--send must be plain ASCII"),
        (
            ("--port", "loop://", "--log", "/nowhere/a.log"),
            "must be a new file that can be written",
        ),
    ],
)
def test_what_cannot_be_monitored_is_said(words, wanted):
    done = monitored(*words)
    assert wanted in done.stderr and done.returncode == 2


def test_the_command_sends_on_a_simulated_board_too():
    done = monitored("--port", "sim:", "--profile", "singlebyte-24x80", "--send", "AB")
    assert done.returncode == 0 and '-->  "AB"' in done.stdout
