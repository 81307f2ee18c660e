"""Regions of a screen: what they are called, and which of them a difference touches."""

import pytest

from termprobe.diagnosis.area import area_of
from termprobe.diagnosis.regions import numbers_of, regions_of, touched
from termprobe.diagnosis.shown import AS_WANTED, sight_of, wanted_of
from termprobe.terminal.screen import Screen

ROWS, COLUMNS = 24, 80
BLANK = b" " * ROWS * COLUMNS


def with_cell(row, column, code=0x41):
    cell = row * COLUMNS + column
    return BLANK[:cell] + bytes([code]) + BLANK[cell + 1 :]


def words_touched(codes, dots=()):
    bits = touched(codes, BLANK, COLUMNS, dots)
    return {words for words, number in numbers_of(ROWS, COLUMNS).items() if bits >> number & 1}


@pytest.mark.parametrize("row, column", [(0, 0), (23, 79), (12, 40), (11, 39), (7, 61)])
def test_a_cell_touches_just_the_regions_whose_words_hold_it(row, column):
    expected = {
        words
        for words in regions_of(ROWS, COLUMNS)
        if row in area_of(words, ROWS, COLUMNS).rows
        and column in area_of(words, ROWS, COLUMNS).columns
    }
    assert words_touched(with_cell(row, column)) == expected and "everywhere" in expected


@pytest.mark.parametrize("rows, columns", [(24, 80), (16, 64), (1, 1), (3, 12)])
def test_each_region_is_named_once_and_bands_hold_the_whole_screen(rows, columns):
    words = regions_of(rows, columns)
    assert len(words) == len(set(words))
    bands = [one for one in words if one.startswith("rows ")]
    held = [row for one in bands for row in sorted(area_of(one, rows, columns).rows)]
    assert held == list(range(rows)) * bool(bands)


def test_a_character_that_is_drawn_wrong_touches_where_it_stands():
    codes = with_cell(3, 10)
    assert touched(codes, codes, COLUMNS) == 0
    bits = touched(codes, codes, COLUMNS, [("A", "#.#")])
    assert bits == touched(codes, BLANK, COLUMNS)
    assert touched(codes, codes, COLUMNS, [("cursor", "missing")]) == 0


def test_a_sight_knows_where_it_differs_and_a_cursor_alone_is_nowhere():
    screen = Screen((" " * COLUMNS,) * ROWS, (0, 0))
    wanted = wanted_of(screen)
    assert sight_of(with_cell(5, 5), (0, 0), 0, wanted).where == touched(
        with_cell(5, 5), BLANK, COLUMNS
    )
    assert sight_of(BLANK, (1, 0), 0, wanted).where == 0 == AS_WANTED.where
