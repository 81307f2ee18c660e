"""Rates of a clock, against published tables of divisors and their printed errors."""

import pytest

from helpers.transcribed import rows
from termprobe.link import rates
from termprobe.link.rate_facts import NOMINAL_BAUD, PUBLISHED, DivisorTable
from termprobe.link.rates import LineRate, best_rate, divided, nearer_rate

PRINTED = rows("divisors.txt")


@pytest.mark.parametrize("clock_hz, baud, divisor, printed", PRINTED, ids="-".join)
def test_each_published_divisor_with_its_printed_error(clock_hz, baud, divisor, printed):
    rate = best_rate(float(clock_hz), float(baud))
    assert rate.divisor == int(divisor)
    decimals = max(len(printed.partition(".")[2]), 2)
    # A printed error has no sign, and may be cut off.
    assert abs(rate.error_percent) == pytest.approx(float(printed), abs=10**-decimals)


def test_published_divisors_are_the_nearest_ones_with_a_tie_to_the_faster_rate(monkeypatch):
    """Without the tables the rule gives the same, but for 19200 out of 5.0688 MHz: 16.5."""
    monkeypatch.setattr(rates, "PUBLISHED", ())
    other = [
        (clock_hz, baud)
        for clock_hz, baud, divisor, _ in PRINTED
        if best_rate(float(clock_hz), float(baud)).divisor != int(divisor)
    ]
    assert other == [("5068800", "19200")]
    assert 5_068_800 / 16 / 19200 == 16.5


# Worked out by hand, clock / 16 / divisor: data sheet of the dual generators, 5.0688 MHz.
@pytest.mark.parametrize(
    "baud, actual, error",
    [(134.5, 134.5223, 0.017), (2000, 2005.0633, 0.253), (19200, 19800.0, 3.125), (9600, 9600, 0)],
)
def test_what_a_rate_is_and_how_much_too_fast(baud, actual, error):
    rate = best_rate(5_068_800, baud)
    assert rate.actual_baud == pytest.approx(actual, abs=5e-5)
    assert rate.error_percent == pytest.approx(error, abs=5e-4)


# Signed errors, worked out from the divisors of the TL16C550C data sheet; 2.4576 MHz likewise.
@pytest.mark.parametrize(
    "clock_hz, baud, divisor, error",
    [
        (1_843_200, 134.5, 857, -0.058),
        (1_843_200, 2000, 58, -0.690),
        (3_072_000, 3600, 53, 0.629),
        (3_072_000, 7200, 27, -1.235),
        (2_457_600, 1800, 85, 0.392),
        (2_457_600, 2000, 77, -0.260),
        (2_457_600, 3600, 43, -0.775),
        (2_457_600, 7200, 21, 1.587),
    ],
)
def test_the_sign_of_an_error(clock_hz, baud, divisor, error):
    rate = best_rate(clock_hz, baud)
    assert (rate.divisor, round(rate.error_percent, 3)) == (divisor, error)


# Other versions of the COM5016: divisors of 50 to 19200 baud out of their clocks.
# The parts for 4.9152 and 4.608 MHz have the same sixteen rates.
@pytest.mark.parametrize(
    "clock_hz, divisors",
    [
        (4_915_200, "6144 4096 2793 2284 2048 1024 512 256 171 154 128 85 64 43 32 16"),
        (4_608_000, "5760 3840 2618 2141 1920 960 480 240 160 144 120 80 60 40 30 15"),
    ],
)
def test_divisors_of_other_clocks(clock_hz, divisors):
    found = [best_rate(clock_hz, baud).divisor for baud in NOMINAL_BAUD]
    assert found == [int(divisor) for divisor in divisors.split()]


def test_another_divisor_would_be_nearer_where_a_table_rounds_down():
    """16.5 lies between: 5068800 / 16 / 17 is 18635, 2.94 per cent less than 19200."""
    nearer = nearer_rate(best_rate(5_068_800, 19200))
    assert nearer.divisor == 17 and round(nearer.error_percent, 2) == -2.94
    assert nearer_rate(best_rate(5_068_800, 9600)) is None
    assert nearer_rate(best_rate(1_000_000, 19200)) is None
    assert nearer_rate(LineRate(1_843_200, 1200, 100)).divisor == 96


def test_a_divisor_is_never_below_one():
    assert best_rate(1000, 19200) == LineRate(1000, 19200, 1)


def test_a_divisor_alone_makes_the_nearest_rate():
    assert divided(5_068_800, 16) == LineRate(5_068_800, 19200, 16)
    assert divided(1_843_200, 857).baud == 134.5
    # 2.4576 instead of 1.8432 MHz: all rates 4/3 as fast.
    assert divided(2_457_600, 12).baud == 9600
    assert divided(2_457_600, 12).error_percent == pytest.approx(100 / 3)


def test_a_table_holds_for_its_clock_alone(monkeypatch):
    monkeypatch.setattr(rates, "PUBLISHED", (*PUBLISHED, DivisorTable(1_600_000, {50: 1}, "")))
    assert best_rate(1_600_000, 50).divisor == 1
    assert best_rate(1_600_001, 50).divisor == 2000
