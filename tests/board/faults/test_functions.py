"""Functions of which a part is missing."""

from helpers.boards import at, faulty, page, rows_of


def test_no_scroll():
    rows = rows_of(faulty("scroll/dead"), at(23, 0) + b"A\nB")
    assert (rows[22], rows[23]) == ("", "AB")
    rows = rows_of(faulty("scroll/line-not-cleared"), b"top" + at(23, 0) + b"A\r\nB")
    assert (rows[22], rows[23]) == ("A", "Bop")


def test_clear_that_skips_a_bank_leaves_every_second_row():
    board = faulty("clear/bank-1-skipped")
    board.receive(page(lambda row, column: 0x58))
    assert rows_of(board, b"\x1a")[:3] == ["", "X" * 80, ""]


def test_parts_of_clear_home_address_and_margin():
    assert faulty("clear/no-home").screen().cursor != (0, 0)
    for name, cursor in (("home/row-kept", (5, 0)), ("home/column-kept", (0, 9))):
        board = faulty(name)
        board.receive(at(5, 9) + b"\x1e")
        assert board.screen().cursor == cursor
    for name, cursor in (
        ("address/row-ignored", (0, 9)),
        ("address/column-ignored", (5, 0)),
        ("address/exchanged", (9, 5)),
        ("address/offset/+1", (6, 10)),
        ("address/offset/-1", (4, 8)),
    ):
        board = faulty(name)
        board.receive(at(5, 9))
        assert board.screen().cursor == cursor, name
    for name, cursor in (
        ("margin/no-wrap", (0, 79)),
        ("margin/column-kept", (1, 79)),
        ("margin/row-kept", (0, 0)),
    ):
        board = faulty(name)
        board.receive(b"x" * 80)
        assert board.screen().cursor == cursor, name
