"""The gates of echo and handshake, and the parity bit. tests/board/test_link.py has the rest."""

from helpers.boards import faulty, sent


def test_the_echo_gate():
    board = faulty("echo-gate/stuck-closed")
    board.type("A")
    assert board.screen().rows[0].strip() == "A"
    board = faulty("echo-gate/stuck-open")
    board.set_option("duplex", "half")
    board.type("A")
    assert board.screen().rows[0].strip() == ""
    assert sent(board) == b"A"
