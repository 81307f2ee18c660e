"""Commands that are dead, stored as well, or taken for others."""

from helpers.boards import faulty, rows_of


def test_a_dead_decoder_line_leaves_the_coordinates_to_be_printed():
    assert rows_of(faulty("decoder/dead/address"), b"A\x1b=%0B")[0] == "A%0B"
    assert rows_of(faulty("decoder/dead/down"), b"A\nB")[0] == "AB"


def test_a_command_taken_for_another_one():
    board = faulty("decoder/acts-as/bell-return")
    assert rows_of(board, b"AB\x07C")[0] == "CB"
    assert board.screen().bells == 0
    assert rows_of(faulty("decoder/acts-as/bell-address"), b"A\x07!#B")[:2] == ["A", "   B"]
    swapped = faulty("decoder/swapped/left-down")
    assert rows_of(swapped, b"A\x08B\nC")[:2] == ["A", " C"]


def test_a_command_that_is_written_as_well():
    board = faulty("decoder/also-written/bell")
    assert rows_of(board, b"A\x07B")[0] == "A\u2407B"
    assert board.screen().bells == 1
