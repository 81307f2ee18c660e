"""Every end keeps to one contract: bytes in and out, waits that can be ended, lines or none."""

import threading

import pytest
import serial

from helpers.lines import HANG_S, PtyBoard, TcpBoard, finishes, taken
from termprobe.link.handler import READ_LIMIT_S, HandlerEnd
from termprobe.link.tcp import connect
from termprobe.link.tty import TtyEnd

EVERY_CODE = bytes(range(256))


def tty_of(path):
    return TtyEnd(serial.Serial(path), is_stream=True, has_parity=False)


def handled(path):
    return HandlerEnd(serial.serial_for_url(path, timeout=READ_LIMIT_S), "socket")


ENDS = {"tcp": (TcpBoard, connect), "tty": (PtyBoard, tty_of), "handler": (TcpBoard, handled)}


@pytest.fixture(params=ENDS)
def both(request):
    """Return (the far end, the End of the port)."""
    make_board, open_end = ENDS[request.param]
    board = make_board()
    end = open_end(board.path)
    yield board, end
    end.close()
    board.vanish()


def test_what_comes_is_read_in_order_and_without_a_mark(both):
    board, end = both
    board.reply(EVERY_CODE)
    pieces = []

    def read_all():
        while sum(len(piece.data) for piece in pieces) < len(EVERY_CODE):
            pieces.extend(end.read())

    assert finishes(read_all)
    assert b"".join(piece.data for piece in pieces) == EVERY_CODE
    assert {piece.mark for piece in pieces} == {""}


def test_all_that_is_written_reaches_the_board(both):
    board, end = both
    end.write(EVERY_CODE)
    assert taken(board, len(EVERY_CODE)) == EVERY_CODE
    assert end.unsent() == 0


def test_a_read_that_waits_ends_with_none_when_it_is_cancelled(both):
    _, end = both
    found = []
    reader = threading.Thread(target=lambda: found.append(end.read()), daemon=True)
    reader.start()
    end.cancel()
    reader.join(HANG_S)
    assert found == [None]


def test_a_stream_has_no_control_lines(both):
    _, end = both
    assert end.is_stream and end.lines() is None
    for line in ("rts", "dtr", "break", "reset"):
        with pytest.raises(NotImplementedError, match="no control lines"):
            end.set_line(line, True)
