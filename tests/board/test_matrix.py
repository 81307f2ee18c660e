"""The matrix of the simulated keyboard, against counting formulas, by trying every chord."""

from itertools import combinations, product
from math import comb

import pytest
from hypothesis import given
from hypothesis import strategies as st

from termprobe.board.matrix import NO_BRIDGES, Bridges, closed


def crossings(rows, columns):
    return list(product(range(rows), range(columns)))


def ghosts(rows, columns, count, diodes=False, bridges=NO_BRIDGES):
    """Return the chords of `count` keys that close more crossings than their own."""
    return [
        chord
        for chord in combinations(crossings(rows, columns), count)
        if closed(chord, diodes, bridges) != set(chord)
    ]


def test_two_keys_never_make_a_ghost_and_three_keys_of_a_3_by_4_matrix_do_in_72_of_220_chords():
    assert (comb(12, 2), len(ghosts(3, 4, 2))) == (66, 0)
    assert (comb(12, 3), len(ghosts(3, 4, 3))) == (220, 72)


@pytest.mark.parametrize(
    "rows, columns, expected", [(2, 2, 4), (2, 5, 40), (4, 4, 144), (5, 3, 120), (8, 8, 3136)]
)
def test_three_keys_make_a_ghost_in_four_chords_for_each_rectangle(rows, columns, expected):
    assert len(ghosts(rows, columns, 3)) == 4 * comb(rows, 2) * comb(columns, 2) == expected


@given(st.sets(st.sampled_from(crossings(4, 5)), max_size=9))
def test_without_diodes_the_closed_crossings_are_the_held_ones_with_every_rectangle_completed(held):
    completed = set(held)
    while True:
        more = {
            (row, column)
            for row, other_column in completed
            for other_row, column in completed
            if (other_row, other_column) in completed
        }
        if more <= completed:
            break
        completed |= more
    assert closed(held, False) == completed


def test_a_ghost_masks_the_release_of_one_key():
    corners = {(0, 0), (0, 1), (1, 0), (1, 1)}
    assert closed(corners, False) == closed(corners - {(1, 1)}, False)


def test_with_diodes_no_chord_at_all_makes_a_ghost():
    assert all(not ghosts(3, 3, count, diodes=True) for count in range(1, 10))
    assert not ghosts(3, 4, 3, diodes=True)


@pytest.mark.parametrize("rows, columns", [(2, 2), (3, 4), (4, 4), (5, 3)])
def test_a_shorted_diode_shows_in_exactly_the_chords_where_it_is_the_corner_opposite_the_ghost(
    rows, columns
):
    shows = {
        diode: ghosts(rows, columns, 3, True, Bridges(shorted=frozenset({diode})))
        for diode in crossings(rows, columns)
    }
    for diode, chords in shows.items():
        assert len(chords) == (rows - 1) * (columns - 1)
        for chord in chords:
            (ghost,) = closed(chord, True, Bridges(shorted=frozenset({diode}))) - set(chord)
            assert diode in chord and ghost[0] != diode[0] and ghost[1] != diode[1]
    every = [chord for chords in shows.values() for chord in chords]
    assert len(set(every)) == len(
        every
    )  # no chord tests two diodes, so it takes one for each: rows times columns
    assert len({chords[0] for chords in shows.values()}) == rows * columns


def test_a_press_of_a_bridged_line_closes_both_with_diodes_or_without():
    for diodes in (False, True):
        assert closed({(1, 2)}, diodes, Bridges(rows=((1, 3),))) == {(1, 2), (3, 2)}
        assert closed({(1, 2)}, diodes, Bridges(columns=((0, 2),))) == {(1, 0), (1, 2)}
