"""Levenshtein's distance, on the textbook's example and by its rules."""

import pytest

from termprobe.diagnosis.edits import distance


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
