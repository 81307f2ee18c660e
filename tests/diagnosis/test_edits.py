"""Levenshtein's distance, on the textbook's example and by its rules."""

import random

import pytest

from termprobe.diagnosis.edits import distance, distance_within


@pytest.mark.parametrize(
    "first, second, edits",
    [
        ("kitten", "sitting", 3),
        ("", "abc", 3),
        ("abc", "abc", 0),
        ("flaw", "lawn", 2),
        (b"A", b"", 1),
    ],
)
def test_the_fewest_edits(first, second, edits):
    assert distance(first, second) == distance(second, first) == edits


def test_up_to_a_few_edits_the_quick_way_finds_the_same():
    chance = random.Random(3)
    for _ in range(300):
        first = bytes(chance.choices(b"ab ", k=chance.randrange(9)))
        second = bytes(chance.choices(b"ab ", k=chance.randrange(9)))
        assert distance_within(first, second, 4) == min(distance(first, second), 4)
