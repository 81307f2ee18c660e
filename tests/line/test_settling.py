"""The shortest pause is found to within a character, by few tries."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from termprobe.line.settling import AMPLE_S, Settling, fill_characters

CHARACTER_S = 10 / 9600


def found(needs_s, least_s=CHARACTER_S):
    """Return what is found of a board that is busy for so long, and how many tries it takes."""
    settling, tries = Settling(least_s), 0
    while (pause_s := settling.next_s) is not None:
        settling.told(pause_s, pause_s >= needs_s)
        tries += 1
    return settling, tries


@given(st.floats(0.0001, AMPLE_S), st.sampled_from([10 / 300, 10 / 1200, CHARACTER_S]))
def test_it_is_right_and_no_more_than_a_character_too_long(needs_s, least_s):
    settling, tries = found(needs_s, least_s)
    assert settling.wrong_s < needs_s <= settling.right_s
    assert settling.right_s - settling.wrong_s <= least_s and tries <= 11


def test_a_board_that_needs_none_takes_two_tries():
    settling, tries = found(0.0)
    assert (settling.right_s, settling.wrong_s, tries) == (0.0, None, 2)


def test_one_that_is_wrong_with_the_longest_pause_is_tried_no_more():
    settling, tries = found(9.0)
    assert (settling.right_s, settling.wrong_s, tries) == (None, AMPLE_S, 1)


@pytest.mark.parametrize("pause_s, count", [(0.0, 0), (CHARACTER_S, 1), (0.0105, 11), (0.1, 96)])
def test_so_many_fill_characters_take_as_long(pause_s, count):
    assert fill_characters(pause_s, CHARACTER_S) == count
