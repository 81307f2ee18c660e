"""Rates as a page of any width, and as data."""

import pytest

from termprobe.link.base import LineFormat
from termprobe.link.rate_facts import NOMINAL_BAUD, USUAL_CLOCKS_HZ
from termprobe.link.rates import best_rate, divided
from termprobe.report.baud_page import baud_document, baud_page

SEVEN_EVEN = LineFormat(9600, 7, "even")
ONE = [[best_rate(5_068_800, baud) for baud in NOMINAL_BAUD]]
ALL = [[best_rate(clock_hz, baud) for baud in NOMINAL_BAUD] for clock_hz in USUAL_CLOCKS_HZ]
OF_DIVISOR = [[divided(clock_hz, 16)] for clock_hz in USUAL_CLOCKS_HZ]


def row(page, baud):
    """Return the words of the row of a rate."""
    return next(line.split() for line in page.split("\n") if line.split()[:1] == [baud])


def test_a_row_has_divisor_rate_error_what_is_used_and_what_is_left():
    page = baud_page(ONE, SEVEN_EVEN, 80)
    assert row(page, "19200") == [
        "19200",
        "16",
        "19800.000",
        "+3.125",
        "%",
        "68%",
        "-1.39",
        "to",
        "+7.84",
        "%",
    ]
    assert row(page, "134.5")[:5] == ["134.5", "2355", "134.522", "+0.017", "%"]
    assert "divisors as published (data sheet of the dual" in page
    assert "7E1" in page and "-4.64 to\n+4.58 %" in page and "within +-2 %" in page


def test_a_divisor_that_would_be_nearer_is_named():
    assert "Divisor 17 would be nearer to 19200: 2.941 % slow." in baud_page(ONE, SEVEN_EVEN, 80)
    assert "nearer" not in baud_page([ONE[0][:4]], SEVEN_EVEN, 80)


@pytest.mark.parametrize("columns", [20, 30, 40, 55, 80, 200])
@pytest.mark.parametrize("of_clocks", [ONE, ALL, OF_DIVISOR], ids=["one", "all", "divisor"])
def test_no_line_is_longer_than_the_console_or_80_and_each_rate_keeps_its_error(columns, of_clocks):
    page = baud_page(of_clocks, SEVEN_EVEN, columns)
    assert max(map(len, page.split("\n"))) <= min(columns, 80)
    if columns > 20 or of_clocks is not OF_DIVISOR:
        assert "+3.125 %" in page


def test_clocks_that_do_not_fit_stand_below_one_another():
    page = baud_page(ALL, SEVEN_EVEN, 40)
    assert page.count(" baud ") == 2
    assert "5.0688 MHz" in page and row(page, "7200")[4:] == ["-1.235", "%"]


def test_one_divisor_of_several_clocks_has_a_row_a_clock():
    page = baud_page(OF_DIVISOR, SEVEN_EVEN, 80)
    assert page.startswith("Divisor 16 of each clock / 16:")
    assert "2.4576 MHz   9600" in page and "3.072 MHz   9600       16  12000.000  +25.000 %" in page


def test_the_data_of_one_clock():
    document = baud_document(ONE, SEVEN_EVEN)
    assert list(document)[:3] == ["clock_hz", "rates", "verdict"]
    assert document["clock_hz"] == 5_068_800 and len(document["rates"]) == 16
    assert document["rates"][-1] == {
        "baud": 19200,
        "divisor": 16,
        "actual_baud": 19800,
        "error_percent": 3.125,
    }
    assert document["rates"][3]["baud"] == 134.5
    assert document["rates"][3]["actual_baud"] == 134.5223
    assert (document["format"], document["budget_percent"]) == ("7E1", [-4.6358, 4.5752])


def test_the_data_of_several_clocks_has_the_clock_in_each_rate():
    document = baud_document(ALL, SEVEN_EVEN)
    assert document["clock_hz"] is None and len(document["rates"]) == 16 * len(USUAL_CLOCKS_HZ)
    assert {rate["clock_hz"] for rate in document["rates"]} == set(USUAL_CLOCKS_HZ)
