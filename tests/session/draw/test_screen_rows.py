"""One screen drawn cell by cell."""

from helpers.bench_state import rows_of
from termprobe.session.draw.screen_rows import (
    Picture,
    cursor_in_words,
    framed_columns,
    framed_rows,
    plain_rows,
    renditions_in_words,
    style_of,
    window,
    window_around,
)
from termprobe.terminal.screen import UNKNOWN_CHARACTER, Screen

LOW = Screen((" " * 80,) * 23 + ("BOTTOM".ljust(80),), (23, 6))
SMALL = Screen(("ab\x1bd", "efgh"), (1, 2), {(0, 0): "bu"})


def test_a_part_of_a_screen_stays_within_it():
    assert window(LOW, 10, 80, (99, 99)) == (14, 0)
    assert window_around(LOW, 10, 40, (0, 79)) == (0, 40)


def test_a_frame_points_at_row_and_column_of_the_cursor():
    rows = rows_of(framed_rows(Picture(SMALL), 2, True))
    assert rows == ["  ┌0─▼─┐", " 0│ab?d│", " 1►efgh│", "  └────┘"]
    assert {len(row) for row in rows} == {framed_columns(SMALL, True)}


def test_a_caption_longer_than_the_frame_goes_on_below_it():
    made = Picture(Screen(("x" * 20,), (0, 0)), "this must be seen; cursor row 0, column 0")
    rows = rows_of(framed_rows(made, 1, False))
    assert " ".join(row.strip("└─┘ ") for row in rows[2:]) == made.caption


def test_marks_show_what_was_seen_and_the_pointer_goes_before_the_cursor():
    picture = Picture(SMALL, marks={(1, 0): "E", (1, 1): UNKNOWN_CHARACTER}, pointer=(1, 2))
    assert rows_of(plain_rows(picture, 2, 4)) == ["ab?d", "Efgh"]
    assert style_of(picture, 1, 1) == "class:screen class:marked"
    assert style_of(picture, 1, 2) == "class:screen class:pointer"
    assert style_of(picture, 0, 0) == "class:screen bold underline"


def test_what_is_shown_by_style_is_told_in_words_too():
    assert cursor_in_words(SMALL) == "cursor row 1, column 2"
    assert renditions_in_words(SMALL) == "bold: row 0 column 0; underline: row 0 column 0"


def test_dim_is_a_style_and_a_word():
    screen = Screen(("ab",), None, {(0, 0): "d"})
    assert style_of(Picture(screen), 0, 0) == "class:screen class:dim"
    assert renditions_in_words(screen).startswith("dim: row 0")
