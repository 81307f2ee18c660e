"""Spans of time as they are said and written."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from termprobe.report.spans_in_words import span_from, span_in_words


@pytest.mark.parametrize(
    "seconds, words",
    [
        (0, "0.0 s"),
        (3.21, "3.2 s"),
        (59.4, "59 s"),
        (60, "1 min"),
        (250, "4 min 10 s"),
        (7500, "2 h 5 min"),
        (3600, "1 h"),
        (273_600, "3 d 4 h"),
    ],
)
def test_two_units_say_how_long(seconds, words):
    assert span_in_words(seconds) == words


@pytest.mark.parametrize(
    "text, seconds",
    [("90", 90), ("90s", 90), ("10m", 600), ("1.5h", 5400), ("7D", 604_800), (" 2m ", 120)],
)
def test_what_people_write_is_read(text, seconds):
    assert span_from(text) == seconds


@pytest.mark.parametrize("text", ["", "m", "-5", "1 h 2", "5w", "1e3", "٣"])
def test_other_texts_are_no_span(text):
    assert span_from(text) is None


@given(st.floats(0, 1e9))
def test_any_span_can_be_said(seconds):
    assert len(span_in_words(seconds).split()) in (2, 4)
