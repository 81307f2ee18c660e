"""What is written down of a screen."""

import pytest

from termprobe.observer.card_screen import seen_at, with_seen
from termprobe.terminal.screen import Screen

SCREEN = Screen(("HELLO   ", "        ", "*" * 8), None)


@pytest.mark.parametrize(
    "written, seen",
    [
        ("0,1 U", (0, 1, "U")),
        ("0 , 1  U U", (0, 1, "U U")),
        ('0,0 " U"', (0, 0, " U")),
        ("1 HELLO", (1, 0, "HELLO   ")),
        ("2", (2, 0, " " * 8)),
        ('2 "  x"', (2, 0, "  x     ")),
    ],
)
def test_a_place_or_a_row(written, seen):
    assert seen_at(SCREEN, written) == seen


@pytest.mark.parametrize(
    "written, must_be",
    [
        ("there", "a row, a column and a text"),
        ("3 X", "rows must be 0 to 2 and columns 0 to 7"),
        ("0,8 X", "rows must be 0 to 2 and columns 0 to 7"),
        ("0,7 XY", "must have room in its row"),
        ("0,7", "must have room in its row"),
    ],
)
def test_what_cannot_be_is_refused(written, must_be):
    with pytest.raises(ValueError, match=must_be):
        seen_at(SCREEN, written)


def test_all_else_is_as_it_must_be():
    rows = with_seen(SCREEN, [seen_at(SCREEN, "0,4 U"), seen_at(SCREEN, "2")])
    assert rows == ("HELLU   ", "        ", "        ")
