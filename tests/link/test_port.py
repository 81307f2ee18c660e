"""A link that is used, lost, held and closed, over pseudo-terminals and TCP connections."""

import contextlib
import threading

import pytest

from helpers.lines import HANG_S, PtyBoard, TcpBoard, arrived, finishes, opened, taken
from termprobe.errors import LinkError, LinkLostError, LinkSettingsError
from termprobe.link import port as port_module


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
        with contextlib.suppress(LinkError):
            call()
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


def test_a_pseudo_terminal_says_that_it_has_no_control_lines(board):
    with opened(board.path) as link:
        assert link.lines() is None
        for line in ("rts", "dtr", "break"):
            with pytest.raises(LinkSettingsError, match=line):
                link.set_line(line, True)
