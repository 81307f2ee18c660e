"""The board's clock found by stepping the rate, on a simulated cable with its sixteen samples."""

import pytest

from helpers.format_boards import FormatBench, swept_on
from termprobe.board.cable.host_side import HostAdapter
from termprobe.errors import LinkSettingsError
from termprobe.line.rate_sweep import (
    bound_percent,
    edges_percent,
    offset_baud,
    sweep_key,
    wrong_width,
)
from termprobe.link.base import ABILITIES, LineFormat
from termprobe.link.budget import Deviation
from termprobe.link.frame import heard

SEVEN_EVEN = LineFormat(9600, 7, "even")
FORMATS = (SEVEN_EVEN, LineFormat(1200, 8, "none"), LineFormat(300, 7, "none"))
AROUND = range(8000, 12000)


@pytest.mark.parametrize("format", FORMATS, ids=str)
@pytest.mark.parametrize("clock_percent", [-3, -1.5, 0, 1.1, 3])
def test_the_clock_of_the_board_is_found_within_half_a_per_cent(format, clock_percent):
    swept = swept_on(FormatBench(format, 1 + clock_percent / 100), format)
    assert swept.why_not == ""
    assert swept.clock_percent == pytest.approx(clock_percent, abs=0.5)
    assert swept.is_right is (abs(clock_percent) < 2)


def test_each_side_is_stepped_from_one_to_six_per_cent():
    swept = swept_on(FormatBench(SEVEN_EVEN), SEVEN_EVEN)
    assert {round(step.percent, 6) for step in swept.steps} >= set(range(-6, 7))


@pytest.mark.parametrize("data_bits", [7, 8])
@pytest.mark.parametrize("parity", ["none", "even", "odd", "mark", "space"])
def test_the_key_shows_errors_at_the_edges_that_are_told(data_bits, parity):
    """An own sampler of the same wire finds them as well, but for the lateness of a start bit."""
    format = LineFormat(9600, data_bits, parity)
    code = ord(sweep_key(format))
    edges = edges_percent(format)

    def is_right(percent):
        return heard(bytes([code]), format, format, 1 / (1 + percent / 100))[0] == (code, "")

    assert is_right(edges.slow_percent + 0.5) and is_right(edges.fast_percent - 0.5)
    assert not is_right(edges.slow_percent - 0.5) and not is_right(edges.fast_percent + 0.5)


def test_the_bound_lies_within_the_edges():
    for format in FORMATS:
        edges, bound = edges_percent(format), bound_percent(format)
        assert edges.slow_percent < bound.slow_percent < 0 < bound.fast_percent
        assert bound.fast_percent < edges.fast_percent


@pytest.mark.parametrize(
    "settings, said",
    [
        ({"rounded_baud": dict.fromkeys(AROUND, 9600)}, "it sends 0.0 % faster"),
        ({"rounded_baud": {baud: 9600 for baud in AROUND if baud < 9600}}, "must change its rate"),
        ({"lowest_baud": 9600}, "must be 9600 baud or more"),
        ({"abilities": frozenset(ABILITIES) - {"marks"}}, "must tell which characters"),
        ({"abilities": frozenset(ABILITIES) - {"frames"}}, "must be able to set speed"),
    ],
)
def test_an_adapter_that_cannot_is_refused(settings, said):
    with pytest.raises(LinkSettingsError, match=said):
        swept_on(FormatBench(SEVEN_EVEN, adapter=HostAdapter(**settings)), SEVEN_EVEN)


def test_an_adapter_that_tells_no_time_and_does_not_follow_is_found_by_the_width():
    bench = FormatBench(SEVEN_EVEN, adapter=HostAdapter(rounded_baud=dict.fromkeys(AROUND, 9600)))
    bench.link.drain = lambda limit_s: True
    swept = swept_on(bench, SEVEN_EVEN)
    assert swept.is_right is None and "not followed" in swept.why_not


def test_edges_that_no_receiver_has_are_not_believed():
    assert "does not change its rate" in wrong_width(Deviation(-9, 9), SEVEN_EVEN)
    assert "does not change its rate" in wrong_width(Deviation(-2, 3), SEVEN_EVEN)
    assert wrong_width(Deviation(-2, 8.5), SEVEN_EVEN) == ""


def test_a_rate_that_is_wrong_from_the_beginning_is_said_to_be():
    swept = swept_on(FormatBench(SEVEN_EVEN, 1.08), SEVEN_EVEN)
    assert swept.is_right is None and "nominal rate already" in swept.why_not


def test_a_key_that_stops_coming_is_told():
    bench = FormatBench(SEVEN_EVEN)
    bench.repeat = lambda key, count: None
    with pytest.raises(LinkSettingsError, match="a key must keep coming"):
        swept_on(bench, SEVEN_EVEN)


def test_rates_are_whole_numbers():
    assert offset_baud(LineFormat(110), 1) == 111
