"""One bit of one cell."""

from helpers.boards import at, faulty, rows_of


def test_one_stuck_bit_of_one_cell_stays_in_its_place_in_the_ram():
    board = faulty("cell/stuck/12-40-3/1")
    assert rows_of(board, b"")[12] == " " * 40 + "("  # 20h with bit 3
    assert rows_of(board, at(12, 40) + b"0")[12].strip() == "8"
    assert rows_of(board, at(23, 0) + b"\n")[11].strip() == "8"
    rows = rows_of(board, b"\x1a")
    assert (rows[12], {*rows}) == (" " * 40 + "(", {"", rows[12]})
    both = faulty("cell/stuck/12-40-3/1", "cell/stuck/12-40-5/0")
    assert both.screen().rows[12][40] == "\u2408"
