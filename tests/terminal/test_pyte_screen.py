"""The screen: what each action does to cells and cursor, and the marks that pyte's own screen would leave."""

import pytest
from hypothesis import given, settings

from helpers.profiles import LETTERS, profiles, streams, with_every_action
from termprobe.profile.model import Coordinates
from termprobe.profile.vocabulary import VOCABULARY
from termprobe.terminal.reference import Reference

LETTER = dict(zip(VOCABULARY, LETTERS, strict=False))


def does(action, *codes):
    """Return the bytes for an action of the made-up profile; its coordinates and counts are single bytes."""
    return b"\x1b" + LETTER[action].encode() + bytes(codes)


def shown(*data, edges=None, **display):
    reference = Reference(
        with_every_action(edges or {}, Coordinates("binary"), **{"columns": 4} | display)
    )
    for piece in data:
        reference.feed(piece)
    return reference.screen()


def at(row, column):
    return does("address", row, column)


ROWS = b"".join(
    at(row, 0) + bytes([65 + row]) * 3 for row in range(5)
)  # AAA to EEE, a blank at the end of each row


def rows(screen):
    return " ".join(row.rstrip() or "." for row in screen.rows)


@pytest.mark.parametrize(
    "action, edge, codes, expected, cursor",
    [
        ("down", "scroll", (1,), "BBB CCC DDD EEE .", (4, 2)),
        ("down", "scroll", (3,), "DDD EEE . . .", (4, 2)),
        ("down", "scroll", (255,), ". . . . .", (4, 2)),
        ("down", "stay", (3,), "AAA BBB CCC DDD EEE", (4, 2)),
        ("down", "wrap", (2,), "AAA BBB CCC DDD EEE", (1, 2)),
        ("down", "scroll", (0,), "AAA BBB CCC DDD EEE", (4, 2)),
        ("next-line", "scroll", (), "BBB CCC DDD EEE .", (4, 0)),
        ("next-line", "stay", (), "AAA BBB CCC DDD EEE", (4, 0)),
        ("next-line", "wrap", (), "AAA BBB CCC DDD EEE", (0, 0)),
        ("clear", None, (), ". . . . .", (0, 0)),
        ("erase-display", None, (), ". . . . .", (4, 2)),
    ],
)
def test_in_the_last_row(action, edge, codes, expected, cursor):
    screen = shown(ROWS, at(4, 2), does(action, *codes), edges={action: edge})
    assert (rows(screen), screen.cursor) == (expected, cursor)


@pytest.mark.parametrize(
    "edge, codes, expected, cursor",
    [
        ("scroll", (1,), ". AAA BBB CCC DDD", (0, 2)),
        ("scroll", (4,), ". . . . AAA", (0, 2)),
        ("scroll", (9,), ". . . . .", (0, 2)),
        ("stay", (9,), "AAA BBB CCC DDD EEE", (0, 2)),
        ("wrap", (1,), "AAA BBB CCC DDD EEE", (4, 2)),
    ],
)
def test_up_from_the_first_row(edge, codes, expected, cursor):
    screen = shown(ROWS, at(0, 2), does("up", *codes), edges={"up": edge})
    assert (rows(screen), screen.cursor) == (expected, cursor)


@pytest.mark.parametrize(
    "action, edge, start, count, cursor",
    [
        ("left", "stay", (2, 1), 3, (2, 0)),
        ("left", "wrap", (2, 1), 3, (2, 2)),
        ("left", "previous-row", (2, 1), 7, (0, 2)),
        ("left", "previous-row", (1, 1), 200, (0, 0)),
        ("right", "stay", (2, 1), 9, (2, 3)),
        ("right", "wrap", (2, 1), 4, (2, 1)),
        ("right", "next-row", (2, 1), 7, (4, 0)),
        ("right", "stay", (2, 1), 0, (2, 1)),
        ("left", "previous-row", (2, 0), 0, (2, 0)),
    ],
)
def test_moves_along_a_row(action, edge, start, count, cursor):
    screen = shown(ROWS, at(*start), does(action, count), edges={action: edge})
    assert (rows(screen), screen.cursor) == ("AAA BBB CCC DDD EEE", cursor)


@pytest.mark.parametrize(
    "last_row, expected, cursor",
    [
        ("scroll", "CCC DDD EEE . .", (4, 1)),
        ("wrap", "AAA BBB CCC DDD EEE", (1, 1)),
        ("stay", "AAA BBB CCC DDD EEE", (4, 1)),
    ],
)
def test_right_beyond_the_last_cell_follows_the_printing_rule_of_the_last_row(
    last_row, expected, cursor
):
    screen = shown(ROWS, at(4, 3), does("right", 6), edges={"right": "next-row"}, last_row=last_row)
    assert (rows(screen), screen.cursor) == (expected, cursor)


@pytest.mark.parametrize(
    "action, start, expected",
    [
        ("erase-to-end-of-display", (2, 1), "AAA BBB C . ."),
        ("erase-to-start-of-display", (2, 1), ". .   C DDD EEE"),
        ("erase-to-end-of-line", (2, 1), "AAA BBB C DDD EEE"),
        ("erase-to-start-of-line", (2, 1), "AAA BBB   C DDD EEE"),
        ("erase-line", (2, 1), "AAA BBB . DDD EEE"),
    ],
)
def test_erasing_takes_the_cell_at_the_cursor_along(action, start, expected):
    """ECMA-48 8.3.39 and 8.3.41: up to and including the active position."""
    screen = shown(ROWS, at(*start), does(action))
    assert (rows(screen), screen.cursor) == (expected, start)


@pytest.mark.parametrize(
    "action, count, expected",
    [
        ("insert-line", 1, "AAA . BBB CCC DDD"),
        ("insert-line", 3, "AAA . . . BBB"),
        ("insert-line", 9, "AAA . . . ."),
        ("insert-line", 0, "AAA BBB CCC DDD EEE"),
        ("delete-line", 1, "AAA CCC DDD EEE ."),
        ("delete-line", 3, "AAA EEE . . ."),
        ("delete-line", 9, "AAA . . . ."),
        ("delete-line", 0, "AAA BBB CCC DDD EEE"),
    ],
)
@pytest.mark.parametrize("edge, column", [("return", 0), ("stay", 2)])
def test_whole_rows(action, count, expected, edge, column):
    screen = shown(ROWS, at(1, 2), does(action, count), edges={action: edge})
    assert (rows(screen), screen.cursor) == (expected, (1, column))


def test_rows_never_written_move_like_others():
    """pyte 0.8.2 leaves a deleted row in place where the row that should replace it was never written."""
    assert rows(shown(b"A\x1b" + LETTER["home"].encode(), does("delete-line", 1))) == ". . . . ."
    assert rows(shown(at(4, 0), b"E", at(1, 0), does("delete-line", 2))) == ". . E . ."
    assert rows(shown(at(1, 0), b"B", at(0, 0), does("insert-line", 2))) == ". . . B ."


@pytest.mark.parametrize(
    "action, count, expected",
    [
        ("insert-character", 1, "A BC"),
        ("insert-character", 2, "A  B"),
        ("insert-character", 9, "A"),
        ("insert-character", 0, "ABCD"),
        ("delete-character", 1, "ACD"),
        ("delete-character", 3, "A"),
        ("delete-character", 9, "A"),
        ("delete-character", 0, "ABCD"),
    ],
)
def test_characters_within_a_row(action, count, expected):
    screen = shown(b"ABCD", at(0, 1), does(action, count), last_column="pending")
    assert (screen.rows[0].rstrip(), screen.cursor) == (expected, (0, 1))


def test_what_was_pushed_out_of_a_row_does_not_come_back():
    """pyte 0.8.2 keeps the cell behind the last column, and deleting brings it back."""
    assert (
        shown(b"ABCD", at(0, 0), does("insert-character", 1), does("delete-character", 1)).rows[0]
        == "ABC "
    )


@pytest.mark.parametrize(
    "stops, edge, start, cursor",
    [
        (4, "stay", 0, (1, 4)),
        (4, "stay", 4, (1, 8)),
        (4, "stay", 8, (1, 9)),
        (4, "stay", 9, (1, 9)),
        (4, "next-row", 7, (1, 8)),
        (4, "next-row", 8, (2, 0)),
        (0, "stay", 3, (1, 9)),
        (0, "next-row", 3, (2, 0)),
        (9, "next-row", 3, (1, 9)),
    ],
)
def test_tab(stops, edge, start, cursor):
    assert (
        shown(at(1, start), does("tab"), edges={"tab": edge}, tab_stops=stops, columns=10).cursor
        == cursor
    )


def test_tab_stops_are_set_and_cleared():
    """ECMA-48 8.3.62 and 8.3.154."""
    size = {"columns": 10, "tab_stops": 4}
    assert shown(at(0, 2), does("tab-set"), at(0, 0), does("tab"), **size).cursor == (0, 2)
    assert shown(at(0, 4), does("tab-clear"), at(0, 0), does("tab"), **size).cursor == (0, 8)
    assert shown(does("tab-clear-all"), does("tab"), **size).cursor == (0, 9)


@pytest.mark.parametrize(
    "action, edge, cursor",
    [
        ("address", "keep", (1, 3)),
        ("address", "clamp", (4, 3)),
        ("address-row", "keep", (1, 2)),
        ("address-row", "clamp", (4, 2)),
    ],
)
def test_a_place_off_the_screen(action, edge, cursor):
    codes = (77, 3) if action == "address" else (77,)
    assert shown(at(1, 2), does(action, *codes), edges={action: edge}).cursor == cursor


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


def test_bells_and_replies_are_counted_and_kept():
    screen = shown(does("bell"), does("bell"), at(2, 3), does("reply"), does("home"), does("reply"))
    assert (screen.bells, screen.replies) == (2, b"\x02;\x03\r\x00;\x00\r")


@settings(max_examples=300, deadline=None)
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
