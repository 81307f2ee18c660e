"""Opening: which names are ports, which settings a line has, and what the link says of them."""

import os
import threading

import pytest

from helpers.lines import PtyBoard, TcpBoard, arrived, opened, taken
from termprobe.errors import LinkMissingError, LinkSettingsError
from termprobe.link.base import LineFormat


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


class Loop:
    """What is written comes back."""

    path = "loop://"


@pytest.mark.parametrize("make_board", [PtyBoard, TcpBoard, Loop])
def test_nothing_stays_open_after_closing(make_board):
    board = make_board()
    opened(board.path).close()  # the first use loads modules
    before = len(os.listdir("/proc/self/fd")), threading.active_count()
    for _ in range(5):
        opened(board.path).close()
    assert (len(os.listdir("/proc/self/fd")), threading.active_count()) == before


def test_a_failed_opening_leaves_nothing_open(board, as_real_port):
    before = len(os.listdir("/proc/self/fd"))
    for _ in range(3):
        with pytest.raises(LinkSettingsError):
            opened(board.path, LineFormat(1200, 7, "even", 1))
    assert len(os.listdir("/proc/self/fd")) == before
