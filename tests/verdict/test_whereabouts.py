"""Where differences are: a record for each way of saying it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.bit_faults import faulty, screen, stuck
from termprobe.report.evidence_words import sentences
from termprobe.terminal.screen import differences
from termprobe.verdict.changes import Block, Change, EveryOther, Everywhere, OneLine, Part
from termprobe.verdict.evidence import of_bytes, of_screen
from termprobe.verdict.whereabouts import (
    Gist,
    Mostly,
    OfBytes,
    Only,
    Spread,
    Within,
    WithinCells,
    gist,
    where_it_can_show,
)

STUCK = Change("stuck", (0,), 1)
rows = st.lists(st.text("@AB ", min_size=4, max_size=4), min_size=2, max_size=2)


def gist_of(expected, seen):
    return gist(of_screen(expected, differences(expected, seen)))


@pytest.mark.parametrize(
    "cells, where",
    [
        ([(3, 4)], Only(((3, 4),))),
        ([(3, column) for column in range(9)], Within(Part(OneLine("row", 3)))),
        ([(row, 9) for row in range(9)], Within(Part(OneLine("column", 9)))),
        ([(1, 2), (3, 5), (7, 9), (9, 10)], Within(Part(EveryOther("row", 1)))),
        ([(1, 2), (2, 4), (7, 6), (9, 10)], Within(Part(EveryOther("column", 0)))),
        ([(4, 3), (5, 4), (6, 5), (7, 3)], Within(Part(Block(4, 7, 3, 5)))),
        ([(0, 0), (5, 4), (6, 5), (23, 79)], Spread()),
    ],
)
def test_where_differences_are_that_nothing_explains(cells, where):
    expected = screen(1)
    seen = [list(row) for row in expected]
    for row, column in cells:
        seen[row][column] = "\ufffd"
    assert gist_of(expected, tuple(map("".join, seen))) == Gist(where, None)


def test_what_a_bit_explains_is_told_of_the_part_on_which_it_acts():
    expected = ("@" * 40,) * 4
    everywhere = ("A" * 40,) * 4
    odd = ("@" * 40, "A" * 40) * 2
    but_one = (*odd[:2], "A" + "@" * 39, odd[3])
    odd_rows = Part(EveryOther("row", 1))
    assert gist_of(expected, everywhere) == Gist(Within(Part(Everywhere())), STUCK)
    assert gist_of(expected, odd) == Gist(Within(odd_rows), STUCK)
    assert gist_of(expected, but_one) == Gist(Mostly(odd_rows, 80, 81), STUCK)


def test_cells_with_nothing_in_common_are_single_ones():
    expected = ("@" * 40,) * 4
    cells = {(0, 0), (1, 7), (2, 30), (3, 39)}
    seen = faulty(expected, stuck(0, 1), lambda row, column, character: (row, column) in cells)
    assert gist_of(expected, seen) == Gist(WithinCells(is_one=False), STUCK)


def test_a_few_cells_are_named_one_by_one_though_the_change_acts_everywhere():
    expected, seen = ("A" * 40,) * 3 + ("A" * 39 + "@",), ("A" * 40,) * 4
    assert gist_of(expected, seen) == Gist(Only(((3, 39),)), STUCK)


def test_a_blank_that_differs_is_no_part_of_what_is_written():
    expected = ("@ " * 20,) * 4
    seen = (expected[0], "A " * 20, expected[2], "A!" + "A " * 19)
    written = Part(EveryOther("row", 1), is_written_only=True)
    assert gist_of(expected, seen) == Gist(Mostly(written, 40, 41), STUCK)


def test_where_only_some_cells_can_show_a_change_their_part_is_told_and_whether_blanks_are_right():
    rows = ("A" * 40, "@" * 40, "A" * 40)
    spaced = tuple(" ".join(row) for row in rows)
    seen = tuple(row.replace("@", "A") for row in rows)
    seen_spaced = tuple(row.replace("@", "A") for row in spaced)
    of_all = of_screen(rows, differences(rows, seen))
    of_written = of_screen(spaced, differences(spaced, seen_spaced))
    assert where_it_can_show(of_all) == Part(OneLine("row", 1))
    assert where_it_can_show(of_written) == Part(OneLine("row", 1), is_written_only=True)


def test_characters_that_came_back_are_counted():
    assert gist(of_bytes(b"HELLO\r", b"HGLLO\r")) == Gist(OfBytes(1, 6), Change("stuck", (1,), 1))


@given(rows, rows, rows, rows)
def test_two_are_the_same_where_their_first_sentences_are(expected, seen, other, other_seen):
    pairs = ((expected, differences(expected, seen)), (other, differences(other, other_seen)))
    found = [of_screen(rows, differs) for rows, differs in pairs if differs]
    gists = {gist(evidence) for evidence in found}
    firsts = {sentences(evidence)[0] for evidence in found}
    assert len(gists) == len(firsts)
