"""What a look shows against what it must show."""

from helpers.boards import PROFILE
from termprobe.board.board import Board
from termprobe.diagnosis.shown import AS_WANTED, picture_of, sight_of, wanted_of
from termprobe.terminal.reference import Reference


def screen_after(data):
    reference = Reference(PROFILE)
    reference.feed(data)
    return reference.screen()


def shown_by(board, wanted, bells):
    codes = board.drawn()
    return sight_of(codes, board.cursor, bells, wanted, board.misdrawn(codes))


def sight(sent, wanted, fault="home/row-kept"):
    board = Board(PROFILE, [fault])
    board.receive(sent)
    return shown_by(board, wanted_of(screen_after(wanted)), board.bells)


def test_what_differs_is_counted_and_told_apart():
    assert sight(b"\x1aAB\a", b"\x1aAB\a") == AS_WANTED
    assert sight(b"\x1aAXC", b"\x1aABC")[:3] == (1, False, False)
    assert sight(b"\x1aAB\b", b"\x1aAB")[:3] == (0, True, False)
    assert sight(b"\x1aAB\a", b"\x1aAB")[:3] == (0, False, True)


def test_what_looks_and_sounds_the_same_is_one_picture():
    wanted = b"\x1aABC"
    pictures = [sight(sent, wanted).picture for sent in (b"\x1aAB", b"\x1aAX\bB\b\bABC\b \b", b"")]
    assert pictures[0] == pictures[1] != pictures[2]
    assert sight(b"\x1aAB\a", wanted).picture != pictures[0]
    assert sight(b"\x1aAB\b", wanted).picture != pictures[0]


def test_where_no_cursor_is_wanted_none_is_missed():
    wanted = wanted_of(screen_after(b"\x1aAB"))._replace(cursor=None)
    board = Board(PROFILE)
    board.receive(b"\x1aAB\b")
    assert shown_by(board, wanted, 0) == AS_WANTED


def test_a_character_that_no_code_draws_is_never_seen():
    wanted = wanted_of(screen_after(b"\x1aAB"))
    board = Board(PROFILE)
    board.receive(b"\x1aAB")
    odd = wanted._replace(codes=b"\xff" + wanted.codes[1:])
    assert shown_by(board, odd, 0).cells == 1


def test_the_digest_of_a_picture_is_what_it_was_in_earlier_run_files():
    assert picture_of(b"AB", (0, 2), 1) == "143f538a84970414"
    board = Board(PROFILE)
    board.receive(b"\x1aAX")
    told = shown_by(board, wanted_of(screen_after(b"\x1aAB")), 0)
    assert told.picture == picture_of(board.drawn(), (0, 2), 0)
