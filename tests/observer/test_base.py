"""What an observer says that sees the whole screen."""

import pytest

from helpers.bench import screen_of
from termprobe.journal.records import AS_EXPECTED, DIFFERS, Answer
from termprobe.observer.base import compared

EXPECTED = screen_of("HELLO", cursor=(0, 5), bells=1)
ROWS = EXPECTED.rows


@pytest.mark.parametrize(
    "rows, cursor, bells, word",
    [
        (ROWS, (0, 5), 1, AS_EXPECTED),
        (ROWS, None, None, AS_EXPECTED),
        (("HELLO",), None, None, AS_EXPECTED),
        (("HELP",), (0, 5), 1, DIFFERS),
        (ROWS, (0, 4), 1, DIFFERS),
        (ROWS, (0, 5), 0, DIFFERS),
    ],
)
def test_rows_cursor_and_bells_are_compared_where_they_are_seen(rows, cursor, bells, word):
    expected = Answer(word, seen=tuple(rows), cursor=cursor, bells=bells)
    assert compared(EXPECTED, list(rows), cursor, bells) == expected


def test_a_screen_without_a_cursor_is_as_expected_wherever_it_is_seen():
    assert compared(screen_of("HELLO", cursor=None), ROWS, (2, 2)).word == AS_EXPECTED
