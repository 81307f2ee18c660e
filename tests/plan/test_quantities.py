"""Readings and limits as people write them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from termprobe.observer.typed_reading import parse_reading
from termprobe.plan.quantities import (
    Unit,
    edges_in_words,
    limits_in_words,
    reading_in_words,
    unit_of,
)


@pytest.mark.parametrize(
    "value, unit, text",
    [
        (153600, "Hz", "153.6 kHz"),
        (152064, "Hz", "152.064 kHz"),
        (15.84, "kHz", "15.84 kHz"),
        (10644.5, "kHz", "10.6445 MHz"),
        (999.9999, "Hz", "1 kHz"),
        (999.99, "Hz", "999.99 Hz"),
        (5.02, "V", "5.02 V"),
        (0.4, "V", "0.4 V"),
        (0.001, "V", "0.001 V"),
        (0.0004, "V", "0.4 mV"),
        (-0.0000005, "A", "-0.5 \u00b5A"),
        (1e-14, "F", "0.01 pF"),
        (5e12, "Hz", "5000 GHz"),
        (-12000, "V", "-12 kV"),
        (4700, "ohm", "4.7 kohm"),
        (1200, "s", "1200 s"),
        (0.0005, "s", "0.5 ms"),
        (0, "V", "0 V"),
        (1200, "rows", "1200 rows"),
        (1200, "", "1200"),
    ],
)
def test_a_reading_takes_the_prefix_that_people_write(value, unit, text):
    assert reading_in_words(value, unit) == text


@pytest.mark.parametrize(
    "low, high, unit, text",
    [
        (152064, 155136, "Hz", "153.6 kHz \u00b1 1 %"),
        (4.75, 5.25, "V", "5 V \u00b1 5 %"),
        (-12.6, -11.4, "V", "-12 V \u00b1 5 %"),
        (4.5, 5.5, "V", "5 V \u00b1 10 %"),
        (4.45, 5.55, "V", "4.45 to 5.55 V"),
        (4.75, 5.3, "V", "4.75 to 5.3 V"),
        (49, 61, "Hz", "49 to 61 Hz"),
        (-15, -5, "V", "-15 to -5 V"),
        (-1, 1, "V", "-1 to 1 V"),
        (5, 5, "V", "5 to 5 V"),
        (800, 1200, "Hz", "0.8 to 1.2 kHz"),
        (0.4, None, "V", "at least 0.4 V"),
        (None, 0.1, "V", "at most 0.1 V"),
        (None, 25000, "Hz", "at most 25 kHz"),
        (0, None, "V", "at least 0 V"),
        (1, 3, "", "1 to 3"),
        (None, None, "V", ""),
    ],
)
def test_limits_are_a_nominal_value_where_they_are_as_far_on_both_sides(low, high, unit, text):
    assert limits_in_words(low, high, unit) == text


def test_edges_are_written_in_one_unit():
    assert edges_in_words(152064, 155136, "Hz") == "152.064 to 155.136 kHz"
    assert edges_in_words(-12.6, -11.4, "V") == "-12.6 to -11.4 V"


@pytest.mark.parametrize(
    "typed, unit",
    [
        ("kHz", Unit(3, "Hz")),
        ("V", Unit(0, "V")),
        ("\u00b5s", Unit(-6, "s")),
        ("Kohms", Unit(3, "ohm")),
        ("rows", None),
        ("", None),
        ("k", None),
    ],
)
def test_a_unit_with_a_prefix_is_known(typed, unit):
    assert unit_of(typed) == unit


@given(
    st.floats(-1e9, 1e9).filter(lambda value: abs(value) > 1e-9 or value == 0),
    st.sampled_from(["V", "kHz", "ohm", "s", "%", "rows"]),
)
def test_what_is_written_can_be_typed_again(value, unit):
    again = parse_reading(reading_in_words(value, unit), unit)
    assert again == pytest.approx(value, rel=1e-5)
