"""Which rows of a screen are shown where not all have room."""

import pytest

from termprobe.session.draw.shown_rows import named_rows, parts_of, shown_rows, words_of_gap
from termprobe.terminal.screen import Screen

BLANK = " " * 80
HEIGHT = 24


def screen(*written, cursor=(0, 0)):
    rows = tuple("x".ljust(80) if row in written else BLANK for row in range(HEIGHT))
    return Screen(rows, cursor)


@pytest.mark.parametrize(
    "question, rows",
    [
        ("Is A in row 5, column 10, and B in row 12, column 40?", {5, 12}),
        ("Is row 4 alone blank from column 40 on?", {4}),
        ("Are rows 3 to 5 alike, and rows 9, 11 and 20?", {3, 4, 5, 9, 11, 20}),
        ("Do 1 to 6 stand at columns 2, 4 and 8?", set()),
        ("Does HELLO stand at the top left?", {0}),
        ("Is X in the bottom row, column 10?", {23}),
        ("Are A and B in the corners, + in row 7?", {0, 7, 23}),
        ("Do rows 22 to 30 exist?", {22, 23}),
        ("Is the last row blank, and the first row too?", {0, 23}),
    ],
)
def test_the_rows_that_a_question_names(question, rows):
    assert named_rows(question, screen(3)) == rows


def test_a_word_on_the_screen_names_the_rows_on_which_it_stands():
    rows = ("A" * 9, "NEW".ljust(9), *("E" * 9,) * 5)
    made = Screen(rows, (0, 0))
    assert named_rows("Is NEW below A, and E below?", made) == {0, 1}


def test_all_rows_are_shown_where_they_have_room():
    assert shown_rows([screen(3)], HEIGHT, "") == tuple(range(HEIGHT))


def test_blank_rows_are_left_out_first():
    rows = shown_rows([screen(0, 1, 7, 17, 23)], 12, "")
    assert {0, 1, 7, 17, 23} <= set(rows) and len(rows) < 12


def test_rows_that_the_question_names_are_shown_even_where_all_is_written():
    rows = shown_rows([screen(*range(HEIGHT))], 10, "Are row 4 and row 20 alone blank?")
    assert {4, 20} <= set(rows)
    gaps = sum(after - before > 1 for before, after in zip(rows, rows[1:], strict=False))
    assert len(rows) + gaps <= 10


def test_the_cursor_counts_as_written():
    assert 22 in shown_rows([screen(0, cursor=(22, 5))], 6, "")


def test_without_names_the_part_with_most_on_it_is_shown():
    dense = screen(*range(8, HEIGHT))
    shown = shown_rows([dense], 10, "")
    assert len(shown) == 10 and shown[0] >= 8


def test_screens_that_are_shown_in_turn_are_shown_alike():
    assert {0, 20} <= set(shown_rows([screen(0), screen(20)], 6, ""))


def test_a_gap_says_which_rows_are_left_out_and_whether_anything_is_on_them():
    made = screen(0, 7)
    assert words_of_gap(made, range(1, 7)) == "rows 1-6 are blank"
    assert words_of_gap(made, range(7, 8)) == "row 7 is not shown"
    assert list(parts_of((0, 1, 4))) == [
        (False, range(0, 2)),
        (True, range(2, 4)),
        (False, range(4, 5)),
    ]
