"""Boards that are given texts on a blank screen."""

from helpers.scripts import SINGLE
from termprobe.board.board import Board
from termprobe.board.counters import Counted
from termprobe.diagnosis.blank_board import BlankBoards, code_of

BOARDS = BlankBoards(SINGLE)


AT_HOME = Counted(0, 0)


def shown(data, *faults, cursor=AT_HOME):
    return BOARDS.wired(Board(SINGLE, faults).wiring).shown(cursor, data)


def test_all_is_blank_but_the_text():
    assert shown(b"AB", cursor=Counted(1, 2)).split() == [b"AB"]
    assert shown(b"AB", cursor=Counted(1, 2)).index(b"A") == 82


def test_boards_that_differ_in_their_memory_alone_and_others():
    assert shown(b"AA", "bank-0-data/stuck/1/1")[:3] == b"CC\x22"
    assert shown(b"AB\b-", "decoder/dead/left")[:4] == b"AB- "
    assert shown(b"A", "clear/bank-0-skipped").split() == [b"A"]


def test_each_text_begins_anew():
    board = BOARDS.wired(Board(SINGLE, ["decoder/dead/clear"]).wiring)
    assert board.shown(Counted(0, 0), b"A\x1aB").split() == [b"AB"]
    assert board.shown(Counted(3, 0), b"C").split() == [b"C"]
    assert code_of(board, 0x41, Counted(1, 5), 80) == 0x41
