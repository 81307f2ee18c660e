"""Frames as people write them."""

import pytest

from termprobe.errors import UsageError
from termprobe.link.base import LineFormat
from termprobe.link.frame_text import frame_from, frame_text


@pytest.mark.parametrize(
    "text, format",
    [
        ("7E1", LineFormat(9600, 7, "even", 1)),
        ("8n2", LineFormat(9600, 8, "none", 2)),
        ("5M1", LineFormat(9600, 5, "mark", 1)),
        (" 6S1 ", LineFormat(9600, 6, "space", 1)),
        ("7O1", LineFormat(9600, 7, "odd", 1)),
    ],
)
def test_a_frame_is_read_and_written_alike(text, format):
    assert frame_from(text) == format
    assert frame_text(format) == text.strip().upper()


@pytest.mark.parametrize("text", ["9N1", "7X1", "8N3", "8N", "", "4N1", "8N1.5", "9600", "８N1"])
def test_what_is_no_frame_is_refused_with_what_must_be(text):
    with pytest.raises(UsageError, match=r"--format must be 5 to 8 data bits.*try 8N1"):
        frame_from(text)
