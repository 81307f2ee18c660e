"""How far two ends may differ, against published tables and against frames on a wire."""

import pytest

from helpers.transcribed import rows
from termprobe.link.base import LineFormat
from termprobe.link.budget import (
    budget_of,
    left_for_other,
    margin_percent,
    middle_budget,
    used_share,
    voting_budget,
)
from termprobe.link.frame import heard
from termprobe.link.rate_facts import VotingReceiver

EIGHT_NONE = LineFormat(9600, 8, "none")


@pytest.mark.parametrize("bits, slowest, fastest, most, _", rows("receiver-tolerance.txt"))
def test_a_receiver_that_votes_bears_what_its_data_sheet_says(bits, slowest, fastest, most, _):
    """ATmega328P, normal speed. Of 8 bits the printed -4.54 does not fit the printed 95.36."""
    found = voting_budget(int(bits))
    assert round(100 + found.slow_percent, 2) == float(slowest)
    assert round(100 + found.fast_percent, 2) == float(fastest)
    printed_fast, printed_slow = map(float, most.split())
    assert found.fast_percent == pytest.approx(printed_fast, abs=0.01)
    if bits != "8":
        assert found.slow_percent == pytest.approx(printed_slow, abs=0.011)


def test_at_double_speed_with_eight_samples():
    """ATmega329 data sheet 2552H, Table 79: samples 4 to 6 of 8."""
    double = VotingReceiver(8, 4, 5, "")
    found = [voting_budget(bits, double) for bits in range(5, 11)]
    slowest = [round(100 + one.slow_percent, 2) for one in found]
    fastest = [round(100 + one.fast_percent, 2) for one in found]
    assert slowest == [94.12, 94.92, 95.52, 96.00, 96.39, 96.70]
    assert fastest == [105.66, 104.92, 104.35, 103.90, 103.53, 103.23]


def test_the_receive_margin_of_an_exact_clock():
    """SH7206 hardware manual, equation 2: 46.875 per cent."""
    assert margin_percent(10, 0) == 46.875


# The same equation, solved by hand for a margin of 0 and of 20 per cent.
@pytest.mark.parametrize(
    "frame_bits, to_nothing, to_twenty",
    [(9, 5.515, 3.162), (10, 4.934, 2.829), (11, 4.464, 2.560), (12, 4.076, 2.337)],
)
def test_where_the_receive_margin_comes_to_nothing(frame_bits, to_nothing, to_twenty):
    assert middle_budget(frame_bits).fast_percent == pytest.approx(to_nothing, abs=5e-4)
    assert middle_budget(frame_bits).slow_percent == pytest.approx(-to_nothing, abs=5e-4)
    assert margin_percent(frame_bits, to_twenty) == pytest.approx(20, abs=0.01)
    assert margin_percent(frame_bits, -to_twenty) == pytest.approx(20, abs=0.01)


def test_a_clock_divided_by_33_costs_a_tenth_of_a_per_cent():
    """It is high for 17 of 33 counts."""
    cost = margin_percent(10, 0) - margin_percent(10, 0, 17 / 33)
    assert cost == pytest.approx(0.09, abs=0.01)


@pytest.mark.parametrize(
    "format, slow, fast",
    [
        (EIGHT_NONE, -4.64, 4.58),
        (LineFormat(9600, 7, "even"), -4.64, 4.58),
        (LineFormat(9600, 8, "even"), -4.19, 4.14),
        (LineFormat(9600, 7, "none", 2), -5.19, 5.11),
        (LineFormat(9600, 5, "none"), -6.80, 6.67),
    ],
)
def test_the_budget_of_a_frame_is_that_of_the_stricter_receiver(format, slow, fast):
    found = budget_of(format)
    assert (round(found.slow_percent, 2), round(found.fast_percent, 2)) == (slow, fast)


def test_a_clock_that_is_fast_leaves_less_on_one_side():
    """19800 for 19200: the other end must follow, and each must understand the other.

    1.03125 / 1.0458 is 0.986 and 1.03125 x 1.0458 is 1.078.
    """
    left = left_for_other(budget_of(EIGHT_NONE), 3.125)
    assert (round(left.slow_percent, 1), round(left.fast_percent, 1)) == (-1.4, 7.8)
    assert left.has(0) and not left.has(-2) and left.has(2)


def test_ends_that_are_too_far_apart_leave_nothing_at_the_nominal_rate():
    assert not left_for_other(budget_of(EIGHT_NONE), 10).has(0)


def test_how_much_is_used():
    budget = budget_of(EIGHT_NONE)
    assert used_share(budget, 0) == 0
    assert used_share(budget, 3.125) == pytest.approx(3.125 / 4.575, abs=0.001)
    assert used_share(budget, -4.7) > 1


@pytest.mark.parametrize("error", [-3.0, 0.0, 3.125])
def test_what_is_left_is_less_than_what_a_wire_bears(error):
    """Sampling each bit once in its very middle bears 5.26 per cent: the budget lies within."""
    left = left_for_other(budget_of(EIGHT_NONE), error)
    codes = bytes([0, 255, 0, 85])
    for other in left:
        ratio = (1 + error / 100) / (1 + other / 100)
        for each in (ratio, 1 / ratio):
            found = heard(codes, EIGHT_NONE, EIGHT_NONE, each)
            assert [one.code for one in found] == list(codes)
            assert not any(one.error for one in found)
