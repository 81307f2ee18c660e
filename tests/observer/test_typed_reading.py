"""What a person types for a reading: a number with or without its unit."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.bench_plan import step
from termprobe.journal.records import AS_EXPECTED, DIFFERS, Answer
from termprobe.observer.typed_reading import (
    answer_of_reading,
    parse_reading,
    reading_of,
    wanted_reading,
)
from termprobe.plan.quantities import OVER_RANGE
from termprobe.plan.readings import Band


@pytest.mark.parametrize(
    "text, unit, value",
    [
        ("10.6445 MHz", "MHz", 10.6445),
        ("15840 hz", "kHz", 15.84),
        ("15.84 kHz", "Hz", 15840.0),
        ("100 ms", "s", 0.1),
        ("2 us", "\u00b5s", 2.0),
        ("330 \u03a9", "ohm", 330.0),
        ("1.5 Kohm", "ohm", 1500.0),
        ("-12", "V", -12.0),
        ("\u221212 V", "V", -12.0),
        (".5", "A", 0.5),
        ("1e3", "Hz", 1000.0),
        ("12", "", 12.0),
        ("12 %", "%", 12.0),
        ("3 rows", "rows", 3.0),
        ("5,02", "V", 5.02),
        ("5,02 V", "V", 5.02),
        ("5.02V", "V", 5.02),
        (",5", "A", 0.5),
        ("0,125", "V", 0.125),
        ("12,5000", "V", 12.5),
        ("1234,567", "Hz", 1234.567),
        ("153.6k", "Hz", 153600.0),
        ("153.6k", "kHz", 153.6),
        ("153,6 k", "Hz", 153600.0),
        ("153.6kHz", "Hz", 153600.0),
        ("4900m", "V", 4.9),
        ("10M", "kHz", 10000.0),
        ("4k7", "ohm", 4700.0),
        ("4k7 ohm", "ohm", 4700.0),
        ("4R7", "ohm", 4.7),
        ("153k6", "Hz", 153600.0),
        ("153k6Hz", "kHz", 153.6),
        ("5V02", "V", 5.02),
        ("-11V9", "V", -11.9),
        ("1m5", "A", 0.0015),
    ],
)
def test_a_number_takes_its_unit_along(text, unit, value):
    assert parse_reading(text, unit) == value


@pytest.mark.parametrize(
    "text, unit",
    [
        ("", "V"),
        ("V", "V"),
        ("4,9,1", "V"),
        ("1,234.5", "V"),
        ("1.234,5", "V"),
        ("5k", "%"),
        ("5k", ""),
        ("4k7", "rows"),
        ("4k7", "V V"),
        ("4R7", "V"),
        ("4x7", "V"),
        ("5V02", "A"),
        ("4.9.1", "V"),
        ("4.9 V V", "V"),
        ("nan", "V"),
        ("inf", "V"),
        ("4.9 A", "V"),
        ("5 V", ""),
        ("5 XV", "V"),
        ("1e999", "V"),
        ("5 rows", "V"),
        ("0x10", "V"),
        ("\u0664", "rows" * 10),
    ],
)
def test_nonsense_is_refused_with_what_must_be_typed(text, unit):
    with pytest.raises(ValueError, match="must be"):
        parse_reading(text, unit)


@pytest.mark.parametrize(
    "text, decimals, whole",
    [
        ("1,234", "1.234", "1234"),
        ("153,600 Hz", "153.600", "153600"),
        ("-12,345", "-12.345", "-12345"),
    ],
)
def test_a_comma_that_may_mean_two_things_is_asked_again(text, decimals, whole):
    with pytest.raises(ValueError, match="may mean either") as caught:
        parse_reading(text, "Hz")
    assert str(caught.value).startswith(f"a reading must be {decimals} or {whole}; ")


@given(st.text(max_size=30), st.sampled_from(["V", "kHz", "ohm", "%", ""]))
def test_no_typed_text_breaks_the_reading(text, unit):
    try:
        value = parse_reading(text, unit)
    except ValueError as error:
        assert "must be" in str(error)
    else:
        assert abs(value) < float("inf")


@pytest.mark.parametrize(
    "value, word",
    [(4.75, AS_EXPECTED), (5.25, AS_EXPECTED), (4.7499, DIFFERS), (5.2501, DIFFERS)],
)
def test_a_reading_is_as_expected_within_its_limits(value, word):
    rail = step("m", "s", "measure", unit="V", low=4.75, high=5.25)
    assert answer_of_reading(rail, value) == Answer(word, value=value)
    assert answer_of_reading(step("m", "s", "measure"), value).word == AS_EXPECTED


def test_what_a_reading_must_be_is_told_with_its_limits_and_their_source():
    rail = step("m", "s", "measure", unit="V", low=4.75, high=5.25)
    assert wanted_reading(rail) == "It must read 4.75 to 5.25 V, that is 5 V \u00b1 5 %."
    source = wanted_reading(rail, "TTL data")
    assert source == "It must read 4.75 to 5.25 V, that is 5 V \u00b1 5 % (TTL data)."
    ripple = step("m", "s", "measure", unit="V", high=0.1)
    assert wanted_reading(ripple) == "It must read at most 0.1 V."
    vertical = step("m", "s", "measure", unit="Hz", low=49.0, high=61.0)
    assert wanted_reading(vertical) == "It must read 49 to 61 Hz."
    free = step("m", "s", "measure", unit="V")
    assert wanted_reading(free, "TTL data") == "It is noted; there are no limits."


DIODE = step(
    "d", "s", "measure", unit="V", low=0.4, possible=Band(0, 10), has_over_range=True, source="it"
)
RIPPLE = step("r", "s", "measure", unit="V", high=0.1, possible=Band(0), source="it")


@pytest.mark.parametrize("typed", ["OL", "ol", " O.L ", "0L"])
def test_a_meter_over_its_range_gives_a_reading_where_that_means_something(typed):
    assert reading_of(DIODE, typed) == OVER_RANGE
    assert answer_of_reading(DIODE, OVER_RANGE).word == AS_EXPECTED
    with pytest.raises(ValueError, match="a reading here must be at least 0 V, not "):
        reading_of(RIPPLE, typed)


def test_what_no_instrument_shows_is_no_reading_and_what_it_shows_is_said():
    assert reading_of(DIODE, "610 mV") == 0.61 and reading_of(RIPPLE, "20 mV") == 0.02
    with pytest.raises(ValueError, match="must be 0 to 10 V, or OL, not '99 V'"):
        reading_of(DIODE, "99 V")
    with pytest.raises(ValueError, match="must be at least 0 V, not '-0.02'"):
        reading_of(RIPPLE, "-0.02")
    plain = step("p", "s", "measure", unit="V", low=1.0, source="it")
    assert reading_of(plain, "-7") == -7.0
    with pytest.raises(ValueError, match="must be a number, not 'OL'"):
        reading_of(plain, "OL")
