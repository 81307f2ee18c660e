"""`termprobe sim`: a simulated board as other programs meet it, over a pseudo-terminal and over TCP."""

import contextlib
import os
import select
import signal
import socket
import subprocess
import sys
import threading
import time
import tty

import pytest

from helpers.paths import ROOT
from termprobe.board.board import Board
from termprobe.board.endpoint import PtyEnd, TcpEnd
from termprobe.board.serve import ScreenFile, obey
from termprobe.clock import SystemClock
from termprobe.errors import LinkBusyError, LinkMissingError, UsageError
from termprobe.link.base import LineFormat
from termprobe.link.open import open_port
from termprobe.profile.load import load

PROFILE = load("singlebyte-24x80")
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
    return path.read_text(encoding="utf-8").split("\n") if path.exists() else []


def first_row(path):
    return "".join(rows_in(path)[:1])


def sent_to(link, count):
    data = b""
    deadline_s = time.monotonic() + LIMIT_S
    while len(data) < count and time.monotonic() < deadline_s:
        data += b"".join(received.data for received in link.read(0.5))
    return data


# -- pseudo-terminal ---------------------------------------------------------------------------------------------------


def test_a_board_on_a_pty_shows_what_it_receives_and_sends_what_is_typed(tmp_path):
    path, screen = tmp_path / "board", tmp_path / "screen"
    with served("--pty", str(path), "--screen", str(screen)) as sim:
        assert sim.greeting == f"a board of singlebyte-24x80 answers on {path}; Ctrl-C ends it\n"
        with open_port(str(path), LINE, SystemClock()) as link:
            link.write(b"\x1aHello\x1b=6o.")
            assert until(lambda: rows_in(screen)[:1] == ["Hello".ljust(80)])
            assert rows_in(screen)[22] == ".".rjust(80)
            assert len(rows_in(screen)) == 25 and rows_in(screen)[24] == ""
            sim.hands("Typed", ":press a shift", ":press c control")
            assert sent_to(link, 8) == b"Typed\rA\x03"
            sim.hands(":set duplex half", "both")
            assert sent_to(link, 5) == b"both\r"
            assert until(lambda: rows_in(screen)[23].startswith("both"))
        with open_port(
            str(path), LINE, SystemClock()
        ) as link:  # the next client, after an exclusive one
            link.write(b"\x1aAgain")
            assert until(lambda: first_row(screen).startswith("Again"))
        assert sim.end() == (0, "")
        assert not os.path.lexists(path)


def test_faults_are_on_the_served_board(tmp_path):
    path, screen = tmp_path / "board", tmp_path / "screen"
    faults = ["--fault", "bank-0-data/stuck/0/1", "--fault", "decoder/dead/return"]
    with served("--pty", str(path), "--screen", str(screen), *faults):
        with open_port(str(path), LINE, SystemClock()) as link:
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


def test_a_link_from_an_earlier_time_is_replaced_and_anything_else_is_not(tmp_path):
    path = tmp_path / "board"
    path.symlink_to("/nowhere")
    end = PtyEnd(str(path))
    assert os.readlink(path).startswith("/dev/")
    end.close()
    assert not os.path.lexists(path)
    path.write_text("precious")
    with pytest.raises(UsageError, match="neither"):
        PtyEnd(str(path))
    assert path.read_text() == "precious"
    with pytest.raises(UsageError, match="No such file"):
        PtyEnd(str(tmp_path / "no" / "folder"))
    assert sorted(entry.name for entry in tmp_path.iterdir()) == ["board"]


def test_a_link_that_another_sim_has_taken_over_is_left_to_it(tmp_path):
    path = str(tmp_path / "board")
    first, second = PtyEnd(path), PtyEnd(path)
    target = os.readlink(path)
    first.close()
    assert os.readlink(path) == target
    second.close()
    assert not os.path.lexists(path)


def test_what_is_sent_to_nobody_is_lost_as_on_a_cable(tmp_path):
    end = PtyEnd(str(tmp_path / "board"))
    end.send(b"nobody listens")
    near = os.open(tmp_path / "board", os.O_RDWR | os.O_NOCTTY)
    tty.setraw(near)
    end.send(b"somebody does")
    assert select.select([near], [], [], LIMIT_S)[0] and os.read(near, 100) == b"somebody does"
    os.close(near)
    end.close()


# -- TCP ---------------------------------------------------------------------------------------------------------------


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


@pytest.mark.parametrize("address", ["0", ":0", "127.0.0.1:0"])
def test_only_this_computer_may_call_unless_another_address_is_named(address):
    end = TcpEnd(address)
    assert end.name.startswith("socket://127.0.0.1:")
    end.close()


def test_an_address_that_another_program_has_is_refused():
    first = TcpEnd(":0")
    with pytest.raises(LinkBusyError, match="free port"):
        TcpEnd(first.name.removeprefix("socket://"))
    first.close()
    with pytest.raises(LinkMissingError, match="address of this computer"):
        TcpEnd("192.0.2.1:1")  # RFC 5737: nobody has this address


@pytest.mark.parametrize("address", ["", "localhost", "host:port", "1:99999", "::\u0663"])
def test_an_address_without_a_port_is_refused(address):
    with pytest.raises(UsageError, match="HOST:PORT"):
        TcpEnd(address)


def test_a_client_that_reads_nothing_does_not_stop_the_board():
    end = TcpEnd(":0")
    client = socket.create_connection(("127.0.0.1", int(end.name.rpartition(":")[2])), LIMIT_S)
    end.receive(select.select(end.sources(), [], [], LIMIT_S)[0])
    worker = threading.Thread(target=end.send, args=(b"x" * 50_000_000,), daemon=True)
    worker.start()
    worker.join(LIMIT_S)
    assert (
        not worker.is_alive() and len(end.sources()) == 1
    )  # parted from the client, still listening
    client.close()
    end.close()


# -- the rest ----------------------------------------------------------------------------------------------------------


def sim(*arguments, profile="singlebyte-24x80"):
    return subprocess.run(
        [*SIM[:-1], profile, *arguments],
        capture_output=True,
        text=True,
        cwd=str(ROOT),
        timeout=60,
        check=False,
        stdin=subprocess.DEVNULL,
    )


def test_faults_are_listed_with_name_title_and_block():
    done = sim("--faults")
    lines = done.stdout.split("\n")
    assert (done.returncode, done.stderr) == (0, "")
    assert len(lines) > 1190
    line = next(line for line in lines if line.startswith("bank-1-data/stuck/0/1 "))
    assert line.split(None, 1)[1] == "data line 0 of RAM bank 1 always reads 1  (bank-1-data)"
    assert "cell/stuck/ROW-COLUMN-BIT/LEVEL" in done.stdout


@pytest.mark.parametrize(
    "arguments, profile, code, words",
    [
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


def test_switching_off_and_on_by_hand():
    board = Board(PROFILE)
    before = board.screen()
    board.receive(b"\x1a")
    obey(board, ":off-on")
    assert board.screen() == before


def test_the_screen_is_written_whole_and_only_when_it_has_changed(tmp_path):
    path = tmp_path / "screen"
    board, file = Board(PROFILE), ScreenFile(str(path))
    file.show(board.screen())
    assert path.read_text(encoding="utf-8").split("\n")[:24] == list(board.screen().rows)
    first = path.stat().st_ino
    file.show(board.screen())
    assert path.stat().st_ino == first
    board.receive(b"\x1a")
    file.show(board.screen())
    assert path.read_text(encoding="utf-8") == (" " * 80 + "\n") * 24
    assert [entry.name for entry in tmp_path.iterdir()] == ["screen"]
