"""Cells that differ, with character and code."""

import pytest

from termprobe.report.facts.cells import cells_in_words
from termprobe.terminal.screen import UNKNOWN_CHARACTER, Difference


@pytest.mark.parametrize(
    "seen, words",
    [
        ("\u2407", "seen BEL (07h)"),
        ('"', "seen '\"' (22h)"),
        ("é", "seen é (U+00E9)"),
        (UNKNOWN_CHARACTER, "marked as differing"),
    ],
)
def test_a_character_that_was_seen_is_told_with_its_code(seen, words):
    (told,) = cells_in_words([Difference(2, 3, "A", seen)])
    assert told == f'row 2, column 3: expected "A" (41h), {words}'


def test_of_many_only_the_first_are_told():
    told = cells_in_words([Difference(0, column, "A", "B") for column in range(1004)])
    assert len(told) == 5 and told[-1] == "and 1,000 more cells"
