"""What a line may be set to, what looks alike, and the words for what is wrong."""

import pytest

from termprobe.line.formats import (
    WireFormat,
    clock_ratio_near,
    common_formats,
    is_alike,
    wrong_straps,
)
from termprobe.link.base import LineFormat
from termprobe.link.frame import heard

WANTED = LineFormat(9600, 7, "even")
SPEEDS = (300, 1200, 9600)
EIGHT_BITS = LineFormat(9600, 8, "none")


@pytest.mark.parametrize("data_bits", [7, 8])
@pytest.mark.parametrize("parity", ["none", "even", "odd"])
def test_formats_of_one_class_are_heard_alike_at_every_rate(data_bits, parity):
    formats = WireFormat(1200, data_bits, parity).line_formats()
    assert LineFormat(1200, data_bits, parity, 1) in formats
    assert LineFormat(1200, data_bits, parity, 2) in formats
    for listening_baud in (300, 1200, 1800, 9600):
        listener = LineFormat(listening_baud)
        for code in b"UCT":
            assert len({heard(bytes([code]), each, listener) for each in formats}) == 1


def test_of_one_class_the_profiles_own_is_named():
    seven_two = LineFormat(9600, 7, "even", 2)
    assert WireFormat(9600, 7, "even").best_format(seven_two) == seven_two
    assert WireFormat(9600, 8, "none").best_format(LineFormat(9600, 7, "space")).parity == "space"
    assert WireFormat(9600, 8, "none").best_format(None) == EIGHT_BITS


def test_the_profile_makes_its_own_format_more_probable_and_all_are_one_together():
    without, with_it = common_formats(), common_formats(WANTED)
    wire = WireFormat(9600, 7, "even")
    assert with_it[wire] > without[wire]
    assert sum(without.values()) == pytest.approx(1.0) == sum(with_it.values())


def test_no_two_rates_are_so_near_that_a_receiver_takes_both():
    rates = sorted({wire.baud for wire in common_formats()})
    assert not [pair for pair in zip(rates, rates[1:], strict=False) if is_alike(*pair)]


@pytest.mark.parametrize(
    "wire, said",
    [
        (WireFormat(9600, 7, "odd"), ["odd parity for even: the strap of even and odd"]),
        (
            WireFormat(9600, 8, "none"),
            ["eight data bits for seven", "no parity for even: the strap that switches parity"],
        ),
        (WireFormat(9600, 7, "none"), ["no parity for even"]),
        (WireFormat(1200, 7, "even"), ["1200 baud for 9600: the straps or switches of the speed"]),
        (WireFormat(12800, 7, "even"), ["12800 baud for 9600: a crystal of 2.4576 MHz in place"]),
        (WireFormat(7200, 7, "even"), ["1.8432 MHz in place of 2.4576"]),
        (WireFormat(19200, 7, "even"), ["a division by two that is missing"]),
        (WireFormat(1600, 7, "even"), ["set to 1200 and a crystal of 2.4576 MHz"]),
        (WireFormat(110, 7, "even"), ["no usual clock explains it"]),
        (WireFormat(9600, 7, "even", True), ["the line is inverted"]),
    ],
)
def test_what_is_wrong_is_named(wire, said):
    wrong = wrong_straps(wire, WANTED, SPEEDS)
    assert len(wrong) == len(said)
    assert all(part in text for part, text in zip(said, wrong, strict=True))


def test_what_is_as_it_should_be_is_not_named():
    assert wrong_straps(WireFormat(9600, 7, "even"), WANTED) == ()
    assert wrong_straps(WireFormat(9600, 7, "even"), LineFormat(9600, 7, "even", 2)) == ()


def test_three_per_cent_is_named_by_its_crystal():
    """5.0688 for 4.9152 MHz, and the divisor 16 for 16.5: both are 3.125 %."""
    assert (
        "5.0688" in clock_ratio_near(1.0313).words and "divisor 16" in clock_ratio_near(1.03).words
    )
    assert clock_ratio_near(1.015) is None
