"""What each action does to cells and cursor."""

import pytest

from helpers.screens import ROWS, at, does, rows, shown
from termprobe.profile.vocabulary import VOCABULARY
from termprobe.terminal.actions import ACTIONS


def test_each_action_of_the_vocabulary_is_made_and_no_other():
    assert set(ACTIONS) == set(VOCABULARY)


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


@pytest.mark.parametrize(
    "action", ["insert-character", "delete-character", "insert-line", "delete-line"]
)
@pytest.mark.parametrize("pieces", [(1, 1), (1, 2), (2, 1), (1, 1, 1), (3, 4)])
def test_inserting_and_deleting_in_pieces_does_what_it_does_at_once(action, pieces):
    """Also where what is pushed out, and pulled back, leaves the screen between two pieces."""
    one_by_one = [does(action, count) for count in pieces]
    assert shown(ROWS, at(1, 1), *one_by_one) == shown(ROWS, at(1, 1), does(action, sum(pieces)))


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
def test_a_cell_off_the_screen(action, edge, cursor):
    codes = (77, 3) if action == "address" else (77,)
    assert shown(at(1, 2), does(action, *codes), edges={action: edge}).cursor == cursor


def test_bells_and_replies_are_counted_and_kept():
    screen = shown(does("bell"), does("bell"), at(2, 3), does("reply"), does("home"), does("reply"))
    assert (screen.bells, screen.replies) == (2, b"\x02;\x03\r\x00;\x00\r")
