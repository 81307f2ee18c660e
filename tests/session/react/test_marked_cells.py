"""Marks on the expected screen: toggled, typed, told in words."""

from hypothesis import given
from hypothesis import strategies as some

from helpers.bench_plan import command, shown, text
from termprobe.session.react import marked_cells
from termprobe.terminal.screen import differences


def test_marks_of_cells_rows_and_columns_are_told_in_words():
    screen = shown((command("clear"), text("HELLO")))
    found = marked_cells.toggled({}, [(0, 1), (0, 2), (0, 4)])
    assert marked_cells.marks_in_words(found) == "row 0 columns 1-2, 4"
    assert (
        marked_cells.marks_in_words(marked_cells.toggled(found, marked_cells.row_cells(screen, 3)))
        == "row 0 columns 1-2, 4; row 3 columns 0-79"
    )
    assert marked_cells.toggled(found, [(0, 1), (0, 2), (0, 4)]) == {}
    assert len(marked_cells.column_cells(screen, 79)) == 24


def test_typed_characters_stand_in_the_rows_seen_and_marked_ones_are_unknown():
    screen = shown((command("clear"), text("HELLO")))
    found = marked_cells.typed(marked_cells.toggled({}, [(5, 5)]), screen, (0, 0), "HALLO")
    seen = marked_cells.seen_rows(screen, found)
    assert seen[0].rstrip() == "HALLO" and seen[5][5] == marked_cells.UNKNOWN_CHARACTER
    assert set(found) == {(0, 1), (5, 5)}
    assert marked_cells.seen_rows(screen, {}) is None


@given(
    some.dictionaries(
        some.tuples(some.integers(0, 23), some.integers(0, 79)),
        some.just(marked_cells.UNKNOWN_CHARACTER),
        max_size=30,
    )
)
def test_rows_seen_differ_exactly_where_marked(found):
    screen = shown((command("clear"), text("HELLO")))
    seen = marked_cells.seen_rows(screen, found) or screen.rows
    assert {(row, column) for row, column, _, _ in differences(screen.rows, seen)} == set(found)
