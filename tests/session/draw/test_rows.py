"""Rows of fragments: clipped, filled, side by side."""

from hypothesis import given
from hypothesis import strategies as some

from helpers.bench_state import rows_of
from termprobe.session.draw import rows


def test_a_row_is_clipped_in_columns_not_in_characters():
    assert rows.clipped([("", "漢字"), ("class:x", "abc")], 6) == [("", "漢字"), ("class:x", "a…")]
    assert rows.width([("", "漢字"), ("class:x", "a")]) == 5


def test_the_shorter_of_two_blocks_leaves_room():
    beside = rows.beside([rows.plain("a")], [rows.plain("b"), rows.plain("c")], 3)
    assert rows_of(beside) == ["a  b", "   c"]


@given(some.integers(0, 30), some.integers(1, 31), some.integers(1, 40))
def test_the_line_looked_for_is_always_in_the_part_shown(index, count, room):
    index = min(index, count - 1)
    shown = range(count)[rows.part_around(index, count, room)]
    assert index in shown and len(shown) == min(count, room)
