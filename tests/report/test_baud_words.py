"""Verdicts on rates, in one sentence each."""

import pytest

from termprobe.link.base import LineFormat
from termprobe.link.rate_facts import NOMINAL_BAUD
from termprobe.link.rates import LineRate, best_rate
from termprobe.report import baud_words as words

EIGHT_NONE = LineFormat(9600, 8, "none")


def of(clock_hz, *rates_baud):
    return [best_rate(clock_hz, baud) for baud in rates_baud or NOMINAL_BAUD]


def made(error_percent):
    """Return a rate that is so wrong."""
    return LineRate(16 * 9600 * (1 + error_percent / 100), 9600, 1)


@pytest.mark.parametrize(
    "error, said",
    [
        (0, "is exact: with 8N1 and an exact computer it holds, also with an adapter 2 % slow or"),
        (2.0, "runs 2.000 % fast: with 8N1 and an exact computer it holds, also with an adapter"),
        (3.125, "computer it holds, with an adapter 2 % slow it does not."),
        (-3.125, "runs 3.125 % slow: with 8N1 and an exact computer it holds, with an adapter 2 %"),
        (5, "runs 5.000 % fast: with 8N1 and an exact computer it does not hold, only with an ad"),
        (-30, "exact computer it does not hold, nor with an adapter 2 % slow or fast."),
    ],
)
def test_a_rate_holds_or_does_not_with_an_exact_computer_and_with_others(error, said):
    assert said in words.rate_verdict(made(error), EIGHT_NONE)


def test_the_sentence_of_19200_out_of_the_published_table():
    """The exact divisor would be 16.5: 16 makes 19800, 3.125 % more (published, 5.0688 MHz)."""
    assert words.rate_verdict(best_rate(5_068_800, 19200), EIGHT_NONE) == (
        "19200 from 5.0688 MHz runs 3.125 % fast: with 8N1 and an exact computer it holds, "
        "with an adapter 2 % slow it does not."
    )


def test_a_longer_frame_bears_less():
    rate = best_rate(5_068_800, 19200)
    limit = [-0.6, -1.4, -1.9]
    frames = [LineFormat(9600, 8, "even"), EIGHT_NONE, LineFormat(9600, 7, "none")]
    left = [words.left(rate, format).slow_percent for format in frames]
    assert left == sorted(left, reverse=True)
    assert left == pytest.approx(limit, abs=0.4)


@pytest.mark.parametrize(
    "clock_hz, rates_baud, said",
    [
        (1_843_200, (), "All 16 rates from 1.8432 MHz hold with 8N1, also with an adapter 2 % "),
        (5_068_800, (), "15 of 16 rates from 5.0688 MHz hold with 8N1, also with an adapter 2 % "),
        (5_068_800, (), "; 19200 runs 3.125 % fast: with an exact computer it holds, with an ada"),
        (1_000_000, (), "only with an exact computer or a good adapter: 7200 (3.549 % slow); not"),
        (
            1_000_000,
            (),
            "not even with an exact computer: 9600 (6.994 % slow), 19200 (8.507 % fast).",
        ),
    ],
)
def test_the_rates_of_a_clock_in_one_sentence(clock_hz, rates_baud, said):
    assert said in words.rates_verdict(of(clock_hz, *rates_baud), EIGHT_NONE)


def test_clocks_are_compared_by_what_they_lack():
    told = words.clocks_verdict([of(1_843_200), of(5_068_800)], EIGHT_NONE)
    assert "1.8432 MHz holds; 5.0688 MHz holds but for 19200 (3.125 % fast)." in told
    told = words.clocks_verdict([of(1_843_200, 9600), of(5_068_800, 19200)], EIGHT_NONE)
    assert "9600 from 1.8432 MHz holds; 19200 (3.125 % fast) from 5.0688 MHz does not." in told


def test_a_slow_clock_is_told_in_hertz():
    assert (words.hertz(4800), words.hertz(6_018_350)) == ("4800 Hz", "6.01835 MHz")
