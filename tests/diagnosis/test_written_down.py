"""Slips in what is written down of a screen."""

import pytest

from termprobe.diagnosis.written_down import slips


@pytest.mark.parametrize(
    "told, shown, count",
    [
        (b"HELLO", b"HELLO", 0),
        (b"HELLO  ", b"HELLO", 0),
        (b"A\r\nB ", b"A\nB", 0),
        (b"HELP", b"HELLO", 2),
        (b"a b", b"a     b", 1),
        (b"hello world", b"HELLO WORLD", 1),
        (b"A?C", b"A\x01C", 0),
        (b"A C", b"A\x01C", 0),
        (b"A\n\n\n\nB", b"A\n\nB", 0),
        (b"A\nB", b"A\n\nB", 1),
        (b"cB?", b"cB\r", 0),
        (b"XYZZY", b"HELLO", 4),
    ],
)
def test_slips(told, shown, count):
    assert slips(told, shown) == count
