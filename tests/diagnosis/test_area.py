"""The words for a part of the screen."""

import pytest

from termprobe.diagnosis.area import area_of, readings_of
from termprobe.diagnosis.area_words import AREA_EXAMPLES
from termprobe.errors import UsageError


def rows(words):
    return sorted(area_of(words, 4, 6).rows)


def columns(words):
    return sorted(area_of(words, 4, 6).columns)


def test_rows():
    assert rows("odd rows") == [1, 3] and rows("even row") == [0, 2]
    assert rows("top half") == [0, 1] and rows("Bottom half") == [2, 3]
    assert rows("row 2") == [2] and rows("rows 1-2") == rows("rows 1 - 2") == [1, 2]
    assert columns("odd rows") == list(range(6))


def test_columns():
    assert columns("odd columns") == [1, 3, 5] and columns("left half") == [0, 1, 2]
    assert columns("right half") == [3, 4, 5] and columns("columns 2-3") == [2, 3]
    assert rows("column 5") == [0, 1, 2, 3]


def test_everywhere_and_both_at_once():
    assert (rows("everywhere"), columns("everywhere")) == ([0, 1, 2, 3], list(range(6)))
    assert (rows("odd rows, left half"), columns("odd rows, left half")) == ([1, 3], [0, 1, 2])
    assert (rows("row 3, column 4"), columns("row 3, column 4")) == ([3], [4])


@pytest.mark.parametrize("words", ["", "odd", "row", "row 9", "rows 3-1", "here", "row 1, row 2"])
def test_what_is_none_is_refused_with_some_that_there_are(words):
    with pytest.raises(UsageError, match='"rows 2-9.* of 4 rows and 6 columns, not ".*--words`'):
        area_of(words, 4, 6)


@pytest.mark.parametrize("words", AREA_EXAMPLES)
def test_every_example_is_understood(words):
    if words == "counting from 1":
        words = f"odd rows, {words}"
    assert readings_of(words, 24, 80)


def test_who_does_not_say_so_may_count_from_one():
    first, second = readings_of("row 2", 4, 6)
    assert (first.region.rows, second.region.rows) == ({2}, {1})
    assert (first.share, second.share) == pytest.approx((0.95, 0.05))
    assert rows("row 2, counting from 1") == [1] and rows("rows 3 to 4") == [2, 3]
    assert len(readings_of("row 2 (counted from 0)", 4, 6)) == 1
