"""Opening, using, losing and closing real ports: pseudo-terminals, TCP connections and pyserial's own handlers."""

import os
import socket
import subprocess
import sys
import termios
import threading

import pytest
import serial
import serial.rfc2217

from helpers.lines import PtyBoard, TcpBoard, arrived, taken
from termprobe.clock import SystemClock
from termprobe.errors import (
    LinkBusyError,
    LinkDeniedError,
    LinkError,
    LinkLostError,
    LinkMissingError,
    LinkSettingsError,
)
from termprobe.link import ends
from termprobe.link import open as opening
from termprobe.link import port as port_module
from termprobe.link.base import LineFormat
from termprobe.link.open import open_port

HANG_S = 20.0
"""No call under test takes a second; one that is not back by then hangs."""


def opened(url, format=LineFormat(), **settings):
    return open_port(url, format, SystemClock(), **settings)


def finishes(call):
    """Return whether `call` comes back at all."""
    thread = threading.Thread(target=call, daemon=True)
    thread.start()
    thread.join(HANG_S)
    return not thread.is_alive()


@pytest.fixture
def board():
    board = PtyBoard()
    yield board
    board.vanish()


@pytest.fixture
def as_real_port(monkeypatch):
    """Have pseudo-terminals treated as ports with a real line."""
    monkeypatch.setattr(opening, "_is_pty", lambda path: False)
    monkeypatch.setattr(opening, "_is_terminal_device", lambda path: True)


@pytest.mark.parametrize(
    "url",
    [
        "/dev/no-such-port",
        "/dev",
        "/dev/null",
        __file__,
        "socket://127.0.0.1",
        "socket://127.0.0.1:0",
        "socket://127.0.0.1:70000",
        "socket://no-such-host.invalid:5",
        "nonsense://x",
        "hwgrep://no-such-port",
        "",
        "\0",
        "socket://",
    ],
)
def test_what_is_no_port_is_missing(url):
    with pytest.raises(LinkMissingError) as caught:
        opened(url)
    assert str(caught.value).isprintable()


def test_a_tcp_port_where_nobody_listens_is_missing():
    with socket.create_server(("127.0.0.1", 0)) as listener:
        number = listener.getsockname()[1]
    with pytest.raises(LinkMissingError, match="Connection refused"):
        opened(f"socket://127.0.0.1:{number}")
    with pytest.raises(LinkMissingError):
        opened(f"rfc2217://127.0.0.1:{number}")


@pytest.mark.parametrize(
    "format, word",
    [
        (LineFormat(0), "speed"),
        (LineFormat(-9600), "speed"),
        (LineFormat(9600, 9), "data bits"),
        (LineFormat(9600, 4), "data bits"),
        (LineFormat(9600, 8, "odd-ish"), "parity"),
        (LineFormat(9600, 8, "none", 3), "stop bits"),
    ],
)
def test_settings_that_no_line_has_are_refused_before_the_port_is_touched(format, word):
    with pytest.raises(LinkSettingsError, match=word):
        opened("/dev/no-such-port", format)


def test_a_port_that_is_open_is_busy_until_it_is_closed(board):
    first = opened(board.path)
    with pytest.raises(LinkBusyError, match="another program"):
        opened(board.path)
    first.close()
    opened(board.path).close()


def test_a_port_held_by_another_program_is_busy_and_names_it(board):
    program = "import fcntl, sys; f = open(sys.argv[1], 'rb+', buffering=0); fcntl.flock(f, 2); print('held', flush=True); input()"
    with subprocess.Popen(
        [sys.executable, "-c", program, board.path], stdin=subprocess.PIPE, stdout=subprocess.PIPE
    ) as other:
        assert other.stdout.readline() == b"held\n"
        with pytest.raises(LinkBusyError, match=f"process {other.pid}"):
            opened(board.path)
        other.communicate(b"\n")
    opened(board.path).close()


def test_a_real_port_in_use_without_a_lock_is_left_alone(board, as_real_port):
    program = "import os, sys; os.open(sys.argv[1], os.O_RDWR | os.O_NOCTTY); print('held', flush=True); input()"
    with subprocess.Popen(
        [sys.executable, "-c", program, board.path], stdin=subprocess.PIPE, stdout=subprocess.PIPE
    ) as other:
        assert other.stdout.readline() == b"held\n"
        with pytest.raises(LinkBusyError, match=f"process {other.pid}"):
            opened(board.path)
        other.communicate(b"\n")


def test_a_program_that_was_killed_leaves_a_pseudo_terminal_usable(board):
    program = (
        "import os, sys, time\nfrom termprobe.clock import SystemClock\nfrom termprobe.link.base import LineFormat\n"
        "from termprobe.link.open import open_port\nlink = open_port(sys.argv[1], LineFormat(), SystemClock())\n"
        "os.kill(os.getpid(), 9)"
    )
    assert subprocess.run([sys.executable, "-c", program, board.path], check=False).returncode == -9
    if os.geteuid() == 0:
        os.chown(board.path, 65534, -1)
    with as_user(65534):
        opened(board.path).close()


class as_user:
    """For the time of the block be this user, where we may; only root is stopped by nothing."""

    def __init__(self, number):
        self.number = number

    def __enter__(self):
        if os.geteuid() == 0:
            os.seteuid(self.number)

    def __exit__(self, *reason):
        if os.getuid() == 0:
            os.seteuid(0)


def test_without_permission_the_group_is_named(board):
    os.chmod(board.path, 0)
    with as_user(65534), pytest.raises(LinkDeniedError, match=r"usermod -aG \w+ "):
        opened(board.path)


def test_real_settings_that_the_driver_changes_silently_are_refused(board, as_real_port):
    """A Linux pseudo-terminal forces eight data bits without parity: just what some adapters' drivers do."""
    with pytest.raises(LinkSettingsError, match="7E1"):
        opened(board.path, LineFormat(1200, 7, "even", 1))
    with pytest.raises(LinkSettingsError, match="parity|refuses"):
        opened(board.path, LineFormat(2400, 8, "odd", 1))


def test_a_speed_that_the_driver_rounds_is_refused(board, monkeypatch):
    monkeypatch.setattr(opening, "_actual_speed_baud", lambda descriptor: 75)
    port = os.open(board.path, os.O_RDWR | os.O_NOCTTY)
    assert "75 baud" in opening.refused(port, LineFormat(110))
    monkeypatch.setattr(
        opening, "_actual_speed_baud", lambda descriptor: 9615
    )  # 8 MHz / 832: within what a UART bears
    assert opening.refused(port, LineFormat(9600)) is None
    os.close(port)


@pytest.mark.skipif(sys.platform != "linux", reason="reads the speed as Linux tells it")
@pytest.mark.parametrize("speed_baud", [110, 9600, 12345, 115200])
def test_the_speed_that_the_driver_has_is_read_back(board, as_real_port, speed_baud):
    link = opened(board.path, LineFormat(speed_baud))
    port = os.open(board.path, os.O_RDWR | os.O_NOCTTY)
    assert opening._actual_speed_baud(port) == speed_baud
    os.close(port)
    link.close()


def test_settings_left_by_the_last_user_do_not_leak_in(board, as_real_port):
    port = os.open(board.path, os.O_RDWR | os.O_NOCTTY)
    settings = termios.tcgetattr(port)
    settings[0] |= termios.BRKINT | termios.IGNPAR | termios.ISTRIP | termios.IXON | termios.ICRNL
    settings[3] |= termios.ECHO | termios.ICANON
    termios.tcsetattr(port, termios.TCSANOW, settings)
    os.close(port)
    with opened(board.path) as link:
        everything = bytes(range(256))
        board.reply(everything)
        assert arrived(link, 256) == everything, "FF is not doubled, XOFF not eaten, CR not changed"
        link.write(everything)
        assert taken(board, 256) == everything, "and the board's characters were not echoed to it"


def test_formats_that_a_pseudo_terminal_cannot_have_are_kept_by_the_link(board):
    for _ in range(2):  # the second opening once failed, for the settings were there already
        with opened(board.path, LineFormat(9600, 7, "even", 1)) as link:
            assert "7E1" in link.note and "parity" in link.note
            board.reply(b"\x41\xc1\xff")
            assert arrived(link, 3) == b"\x41\x41\x7f"
            link.write(b"\xc1\x8d")
            assert taken(board, 2) == b"\x41\x0d"
    with opened(board.path, LineFormat(300, 5, "none", 2)) as link:
        link.write(b"\xff")
        assert taken(board, 1) == b"\x1f"


@pytest.mark.parametrize("make_board", [PtyBoard, TcpBoard])
def test_a_port_that_vanishes_gives_what_had_come_then_is_lost(make_board):
    board = make_board()
    link = opened(board.path)
    board.reply(b"last words")
    assert arrived(link, 10) == b"last words"
    reading = []
    reader = threading.Thread(
        target=lambda: reading.append(pytest.raises(LinkLostError, link.read, HANG_S))
    )
    reader.start()
    board.vanish()
    reader.join(HANG_S)
    assert reading, "a read that waits ends at once when the port goes"
    for call in (lambda: link.write(b"x"), lambda: link.read(0), lambda: link.read(1)):
        with pytest.raises(LinkLostError, match="gone"):
            call()
    for call in (
        link.lines,
        lambda: link.drain(0.1),
        lambda: link.set_line("rts", True),
        lambda: link.set_line("break", True),
    ):
        try:
            call()
        except LinkError:
            pass
    assert finishes(link.close)


@pytest.mark.parametrize("make_board", [PtyBoard, TcpBoard])
def test_a_port_that_vanishes_in_the_middle_of_a_write_is_lost(make_board):
    board = make_board()
    link = opened(board.path)
    board.reply(b".")  # makes sure that the far end has taken the connection
    assert arrived(link, 1) == b"."
    failures = []

    def write_on():
        try:
            while True:
                link.write(bytes(4096))
        except LinkError as error:
            failures.append(error)

    writer = threading.Thread(target=write_on)
    writer.start()
    taken(board, 8192)
    board.vanish()
    writer.join(HANG_S)
    assert [type(error) for error in failures] == [LinkLostError]
    link.close()


def test_a_line_that_takes_nothing_is_an_error_that_says_so(board, monkeypatch):
    monkeypatch.setattr(ends, "WRITE_LIMIT_S", 0.05)
    with opened(board.path) as link:
        with pytest.raises(LinkError, match="takes no more"):
            for _ in range(100):
                link.write(bytes(4096))


def test_closing_never_hangs_on_a_board_that_reads_nothing(board):
    link = opened(board.path)
    blocked = threading.Thread(target=lambda: pytest.raises(LinkError, fill, link), daemon=True)
    blocked.start()
    blocked.join(0.2)
    assert finishes(link.close)
    blocked.join(HANG_S)
    assert not blocked.is_alive(), "the write that was blocked ends as well"


def fill(link):
    while True:
        link.write(bytes(4096))


def test_closing_ends_a_read_that_waits(board):
    link = opened(board.path)
    outcome = []

    def read():
        outcome.append(link.read(HANG_S * 10))

    reader = threading.Thread(target=read, daemon=True)
    reader.start()
    reader.join(0.1)
    link.close()
    reader.join(HANG_S)
    assert outcome == [()]


@pytest.mark.parametrize("url", ["loop://", "pty", "tcp"])
def test_nothing_stays_open_after_closing(url):
    board = {"pty": PtyBoard, "tcp": TcpBoard}.get(url, lambda: None)()
    opened(board.path if board else url).close()  # the first use loads modules
    before = len(os.listdir("/proc/self/fd")), threading.active_count()
    for _ in range(5):
        opened(board.path if board else url).close()
    assert (len(os.listdir("/proc/self/fd")), threading.active_count()) == before


def test_a_failed_opening_leaves_nothing_open(board, as_real_port):
    before = len(os.listdir("/proc/self/fd"))
    for _ in range(3):
        with pytest.raises(LinkSettingsError):
            opened(board.path, LineFormat(1200, 7, "even", 1))
    assert len(os.listdir("/proc/self/fd")) == before


def test_what_nobody_reads_is_dropped_and_marked(board, monkeypatch):
    monkeypatch.setattr(port_module, "KEPT_LIMIT", 100)
    with opened(board.path) as link:
        board.reply(bytes(300))
        got = ()
        while not any(received.error == "overrun" for received in got):
            got = link.read(HANG_S)
            assert got and sum(len(received.data) for received in got) <= 100
        while link.read(0.1):
            pass
        board.reply(b"again")
        assert arrived(link, 5)[-5:] == b"again"


def test_control_lines_are_those_of_the_port():
    with opened("loop://", rts=True) as link:
        assert link.lines()["cts"] is True, "a loop joins RTS to CTS"
        link.set_line("rts", False)
        assert link.lines()["cts"] is False
        with pytest.raises(LinkSettingsError, match="control lines"):
            link.set_line("reset", True)
    with opened("loop://", rts=False, dtr=False) as link:
        assert (link.lines()["cts"], link.lines()["dsr"]) == (False, False)


def test_a_pseudo_terminal_says_that_it_has_no_control_lines(board):
    with opened(board.path) as link:
        assert link.lines() is None
        for line in ("rts", "dtr", "break"):
            with pytest.raises(LinkSettingsError, match=line):
                link.set_line(line, True)


def test_more_than_a_loop_holds_goes_through():
    data = bytes(range(256)) * 40
    with opened("loop://") as link:
        link.write(data)
        assert arrived(link, len(data)) == data


@pytest.mark.skipif(os.geteuid() != 0, reason="must become another user")
def test_a_real_port_is_shut_to_programs_that_ask_for_no_lock(board, as_real_port):
    os.chmod(board.path, 0o666)
    with opened(board.path), as_user(65534), pytest.raises(OSError, match="busy"):
        os.open(board.path, os.O_RDWR | os.O_NOCTTY)


class Rfc2217Server:
    """pyserial's own server side, before a loop: what the link writes comes back to it."""

    def __init__(self):
        self._listener = socket.create_server(("127.0.0.1", 0))
        self.path = f"rfc2217://127.0.0.1:{self._listener.getsockname()[1]}"
        self.port = serial.serial_for_url("loop://", timeout=0.01)
        threading.Thread(target=self._serve, daemon=True).start()

    def _serve(self):
        connection, _ = self._listener.accept()
        self.connection = connection
        self.write = connection.sendall
        manager = serial.rfc2217.PortManager(self.port, self)
        connection.settimeout(0.01)
        while True:
            try:
                data = connection.recv(1024)
                if not data:
                    return
                self.port.write(b"".join(manager.filter(data)))
            except TimeoutError:
                pass
            except OSError:
                return
            connection.sendall(b"".join(manager.escape(self.port.read(self.port.in_waiting))))

    def vanish(self):
        self.connection.shutdown(socket.SHUT_RDWR)
        self._listener.close()


def test_a_port_behind_rfc_2217_has_a_real_line_and_can_be_lost():
    server = Rfc2217Server()
    link = opened(server.path, LineFormat(2400, 7, "even", 1), rts=False)
    assert (server.port.baudrate, server.port.bytesize, server.port.parity, server.port.rts) == (
        2400,
        7,
        "E",
        False,
    )
    link.write(b"to and fro\xff")
    assert arrived(link, 11) == b"to and fro\xff"
    assert link.drain(1.0)
    server.vanish()
    with pytest.raises(LinkLostError):
        for _ in range(100):
            link.read(0.1)
    assert finishes(link.close)
