"""The cells of the screen, and what pyte's own screen would do otherwise."""

import pytest
from hypothesis import given

from helpers.examples import examples
from helpers.profiles import profiles, streams
from helpers.screens import LETTER, at, does, rows, shown
from termprobe.terminal.reference import Reference


def test_rows_never_written_move_like_others():
    """pyte 0.8.2 leaves a deleted row where the row that replaces it was never written."""
    assert rows(shown(b"A\x1b" + LETTER["home"].encode(), does("delete-line", 1))) == ". . . . ."
    assert rows(shown(at(4, 0), b"E", at(1, 0), does("delete-line", 2))) == ". . E . ."
    assert rows(shown(at(1, 0), b"B", at(0, 0), does("insert-line", 2))) == ". . . B ."


def test_what_was_pushed_out_of_a_row_does_not_come_back():
    """pyte 0.8.2 keeps the cell behind the last column, and deleting brings it back."""
    assert (
        shown(b"ABCD", at(0, 0), does("insert-character", 1), does("delete-character", 1)).rows[0]
        == "ABC "
    )


@pytest.mark.parametrize(
    "blanking",
    [
        [does("erase-display")],
        [does("erase-to-end-of-display")],
        [does("insert-line", 1)],
        [does("clear")],
        [does("delete-character", 3)],
        [does("insert-character", 3)],
        [at(4, 0), does("down", 9)],
    ],
)
def test_blanks_that_no_character_left_are_plain(blanking):
    """ECMA-48 6.1.3 leaves it open; plain is common practice where there are no colours."""
    screen = shown(does("reverse"), b"ABC", at(0, 0), *blanking)
    assert all(screen.rows[row][column] != " " for row, column in screen.renditions)
    assert shown(does("reverse"), b" ").renditions == {(0, 0): "r"}


def test_renditions_add_up_until_plain():
    size = {"columns": 12}
    screen = shown(
        b"a",
        does("bold"),
        b"b",
        does("underline"),
        b"c",
        does("blink"),
        b"d",
        does("reverse"),
        b"e",
        does("plain"),
        b"f",
        **size,
    )
    assert list(screen.renditions.items()) == [
        ((0, 1), "b"),
        ((0, 2), "bu"),
        ((0, 3), "buk"),
        ((0, 4), "bukr"),
    ]
    assert shown(does("bold"), b"AB", at(0, 0), does("plain"), b"C", **size).renditions == {
        (0, 1): "b"
    }


@examples(300)
@given(profiles(), streams())
def test_every_profile_has_a_screen_for_all_bytes_however_they_are_cut(profile, data):
    whole, single = Reference(profile), Reference(profile)
    whole.feed(data)
    for code in data:
        single.feed(bytes([code]))
    screen, display = whole.screen(), profile.display
    assert screen == single.screen()
    assert [len(row) for row in screen.rows] == [display.columns] * display.rows
    assert 0 <= screen.cursor[0] < display.rows and 0 <= screen.cursor[1] < display.columns
    assert all(row < display.rows and column < display.columns for row, column in screen.renditions)


def test_up_to_the_top_row_scrolls_nothing_and_over_it_does():
    edges = {"up": "scroll"}
    assert rows(shown(at(1, 0), b"B", does("up", 1), edges=edges)) == ". B . . ."
    assert rows(shown(at(1, 0), b"B", does("up", 1), does("up", 1), edges=edges)) == ". . B . ."
