"""`termprobe sim`: a simulated board as other programs meet it, over a pseudo-terminal and TCP."""

import contextlib
import os
import pty
import signal
import socket
import subprocess
import sys
import termios
import time

import pytest

from helpers.paths import ROOT
from helpers.program import called
from helpers.tmux import IS_HERE, Tmux
from termprobe.clock import SystemClock
from termprobe.link.base import LineFormat
from termprobe.link.open import open_port

LINE = LineFormat(9600, 7, "even", 1)
LIMIT_S = 10.0
SIM = [sys.executable, "-m", "termprobe.cli.main", "sim", "--profile", "singlebyte-24x80"]


class Served:
    """A running `termprobe sim`."""

    def __init__(self, *arguments):
        self.process = subprocess.Popen(
            [*SIM, *arguments],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            cwd=str(ROOT),
        )
        self.greeting = self.process.stdout.readline()

    def hands(self, *lines):
        self.process.stdin.write("".join(line + "\n" for line in lines))
        self.process.stdin.flush()

    def end(self, number=signal.SIGTERM):
        """Return exit code and standard error after the signal."""
        self.process.send_signal(number)
        _, errors = self.process.communicate(timeout=LIMIT_S)
        return self.process.returncode, errors


@contextlib.contextmanager
def served(*arguments):
    sim = Served(*arguments)
    try:
        yield sim
    finally:
        if sim.process.poll() is None:
            sim.process.kill()
        sim.process.communicate()


def until(condition):
    """Wait until `condition` holds; return what it gave at last."""
    deadline_s = time.monotonic() + LIMIT_S
    while not (found := condition()) and time.monotonic() < deadline_s:
        time.sleep(0.01)
    return found


def rows_in(path):
    if not path.exists():
        return []
    return path.read_text(encoding="utf-8").split("\n")


def first_row(path):
    return "".join(rows_in(path)[:1])


def sent_to(link, count):
    data = b""
    deadline_s = time.monotonic() + LIMIT_S
    while len(data) < count and time.monotonic() < deadline_s:
        data += b"".join(received.data for received in link.read(0.5))
    return data


def test_a_board_on_a_pty_shows_what_it_receives_and_sends_what_is_typed(tmp_path):
    path, screen = tmp_path / "board", tmp_path / "screen"
    with served("--pty", str(path), "--screen", str(screen)) as sim:
        assert sim.greeting == f"a board of singlebyte-24x80 answers on {path}; Ctrl-C ends it\n"
        with open_port(str(path), LINE, SystemClock()) as link:
            link.write(b"\x1aHello\x1b=6o.")
            assert until(lambda: rows_in(screen)[:1] == ["Hello".ljust(80)])
            assert rows_in(screen)[22] == ".".rjust(80)
            assert rows_in(screen)[24:] == ["\fcursor: 23,0", ""]
            sim.hands("Typed", ":press a shift", ":press c control")
            assert sent_to(link, 8) == b"Typed\rA\x03"
            sim.hands(":set duplex half", "both")
            assert sent_to(link, 5) == b"both\r"
            assert until(lambda: rows_in(screen)[23].startswith("both"))
        # the next client, after an exclusive one
        with open_port(str(path), LINE, SystemClock()) as link:
            link.write(b"\x1aAgain")
            assert until(lambda: first_row(screen).startswith("Again"))
        assert sim.end() == (0, "")
        assert not os.path.lexists(path)


def test_faults_are_on_the_served_board(tmp_path):
    path, screen = tmp_path / "board", tmp_path / "screen"
    faults = ["--fault", "bank-0-data/stuck/0/1", "--fault", "decoder/dead/return"]
    with (
        served("--pty", str(path), "--screen", str(screen), *faults),
        open_port(str(path), LINE, SystemClock()) as link,
    ):
        link.write(b"\x1aHI\rT")
        assert until(lambda: rows_in(screen)[:1] == ["IIU".ljust(80, "!")])


def test_hands_are_told_what_cannot_be_done_and_the_board_goes_on(tmp_path):
    path = tmp_path / "board"
    with served("--pty", str(path)) as sim, open_port(str(path), LINE, SystemClock()) as link:
        sim.hands(":press retrun", ":set duplex", ":dance", "\u00e9", "still here")
        assert sent_to(link, 11) == b"still here\r"
        code, errors = sim.end(signal.SIGINT)
        assert code == 0
        for words in (
            'nearest is "return"',
            "a line must be one of these, not ':dance'",
            ":set OPTION POSITION",
            "'\u00e9'",
        ):
            assert words in errors
        assert "Traceback" not in errors


def test_the_board_goes_on_when_the_hands_have_gone(tmp_path):
    path, screen = tmp_path / "board", tmp_path / "screen"
    with (
        served("--pty", str(path), "--screen", str(screen)) as sim,
        open_port(str(path), LINE, SystemClock()) as link,
    ):
        sim.process.stdin.close()
        link.write(b"\x1aAlone")
        assert until(lambda: first_row(screen).startswith("Alone"))
        sim.process.stdin = None
        assert sim.end()[0] == 0


def test_a_board_on_a_tcp_port_serves_one_client_at_a_time(tmp_path):
    screen = tmp_path / "screen"
    with served("--tcp", "127.0.0.1:0", "--screen", str(screen)) as sim:
        url = sim.greeting.split(" answers on ")[1].split(";")[0]
        assert url.startswith("socket://127.0.0.1:")
        with open_port(url, LINE, SystemClock()) as link:
            link.write(b"\x1aHello")
            assert until(lambda: first_row(screen).startswith("Hello"))
            with socket.create_connection(
                ("127.0.0.1", int(url.rpartition(":")[2])), LIMIT_S
            ) as second:
                second.settimeout(LIMIT_S)
                assert second.recv(10) == b""
            sim.hands("Hi")
            assert sent_to(link, 3) == b"Hi\r"
        with open_port(url, LINE, SystemClock()) as link:
            link.write(b"\x1aNext")
            assert until(lambda: first_row(screen).startswith("Next"))
        assert sim.end() == (0, "")


def sim(*arguments, profile="singlebyte-24x80"):
    return called("sim", "--profile", profile, *arguments)


def test_faults_are_listed_with_name_title_and_block():
    done = sim("--faults", "all")
    lines = done.stdout.split("\n")
    assert (done.returncode, done.stderr) == (0, "")
    assert len(lines) > 1190
    line = next(line for line in lines if line.startswith("bank-1-data/stuck/0/1 "))
    assert line.split(None, 1)[1] == "data line 0 of RAM bank 1 is stuck at 1  (bank-1-data)"
    assert "cell/stuck/ROW-COLUMN-BIT/LEVEL" in done.stdout


def test_faults_are_counted_first_by_block_and_listed_for_one():
    done = sim("--faults")
    lines = done.stdout.splitlines()
    assert (done.returncode, done.stderr) == (0, "") and len(lines) < 40
    counted = [line.split() for line in lines if " such as " in line]
    total = int(lines[0].split()[1])
    assert total == sum(int(words[1]) for words in counted) > 1190
    assert lines[0] == f"singlebyte-24x80: {total} faults in {len(counted)} blocks"
    (count,) = [int(words[1]) for words in counted if words[0] == "bank-1-data"]
    listed = sim("--faults", "bank-1-data").stdout.splitlines()
    assert len(listed) == count and all("(bank-1-data)" in line for line in listed)


@pytest.mark.skipif(not IS_HERE, reason="tmux is not installed")
def test_the_screen_is_shown_live_in_a_second_window(tmp_path):
    path = tmp_path / "board"
    with Tmux([*SIM, "--pty", path, "--show"], 90, 30, tmp_path) as window:
        window.wait("Ctrl-C ends it; a board of singlebyte-24x80")
        with open_port(str(path), LINE, SystemClock()) as link:
            link.write(b"\x1aHELLO")
            assert window.wait("HELLO", "cursor row 0, column 5").startswith("HELLO")
            window.press("T", "y", "p", "e", "Enter", then=["cursor row 0, column 5"])
            assert sent_to(link, 5) == b"Type\r"
            assert until(lambda: window.text().split("\n")[0] == "HELLO"), "the echo is wiped off"
            window.press(":", "o", "d", "d", "Enter", then=["a line must be one of these"])


def read_until(descriptor, words):
    """Return what is written up to `words`."""
    written = b""
    while words not in written:
        try:
            written += os.read(descriptor, 65536)
        except OSError:
            raise AssertionError(f"{words!r} must be written, not {written!r}") from None
    return written


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
def test_the_window_is_put_back_however_it_ends(tmp_path, number):
    master, slave = pty.openpty()
    termios.tcsetwinsize(slave, (30, 90))
    words = [*SIM, "--pty", str(tmp_path / "board"), "--show"]
    with subprocess.Popen(words, stdin=slave, stdout=slave, stderr=slave, cwd=ROOT) as shown:
        os.close(slave)
        written = read_until(master, b"Ctrl-C ends it; a board")
        shown.send_signal(number)
        written += read_until(master, b"\x1b[?1049l")
        assert shown.wait(LIMIT_S) == 0
    os.close(master)
    assert written.count(b"\x1b[?1049h") == 1 and b"\x1b[?25h\x1b[?1049l" in written


def test_a_screen_is_not_shown_where_there_is_no_window(tmp_path):
    done = sim("--pty", str(tmp_path / "board"), "--show")
    assert done.returncode == 2 and "--show must have a window" in done.stderr


@pytest.mark.parametrize(
    "arguments, profile, code, words",
    [
        (["--faults", "bank-1"], "singlebyte-24x80", 2, "must be alone, or with one of all,"),
        (["--pty", "x"], "ecma48-24x80", 2, "section circuit"),
        (
            ["--pty", "x", "--fault", "decoder/dead/claer"],
            "singlebyte-24x80",
            2,
            'nearest is "decoder/dead/clear"',
        ),
        ([], "singlebyte-24x80", 2, "--pty"),
        (["--pty", "x", "--tcp", ":0"], "singlebyte-24x80", 2, "not allowed with"),
        (["--pty", str(ROOT)], "singlebyte-24x80", 2, "neither"),
        (["--tcp", "192.0.2.1:1"], "singlebyte-24x80", 3, "address of this computer"),
        (
            ["--tcp", ":0", "--screen", "/no/such/folder/screen"],
            "singlebyte-24x80",
            2,
            "must be a file that can be written",
        ),
    ],
)
def test_what_cannot_be_served_gives_one_clear_message(arguments, profile, code, words):
    done = sim(*arguments, profile=profile)
    assert (done.returncode, words in done.stderr, "Traceback" in done.stderr) == (
        code,
        True,
        False,
    ), done.stderr
