"""Frames heard bit by bit: parity, framing, and clocks that differ."""

import pytest

from termprobe.link import frame
from termprobe.link.base import LineFormat

SEVEN_EVEN = LineFormat(9600, 7, "even")
SEVEN_ODD = LineFormat(9600, 7, "odd")
EIGHT_NONE = LineFormat(9600, 8, "none")
EVERY_CODE = bytes(range(128))


def heard(*line):
    """Return what a listener takes from the wire, as a list."""
    return list(frame.heard(*line))


@pytest.mark.parametrize("bits", [5, 7, 8])
@pytest.mark.parametrize("parity", ["none", "even", "odd", "mark", "space"])
@pytest.mark.parametrize("stop_bits", [1, 1.5, 2])
def test_ends_that_agree_understand_each_other(bits, parity, stop_bits):
    line = LineFormat(300, bits, parity, stop_bits)
    codes = bytes(range(1 << bits))
    assert heard(codes, line, line) == [(code, "") for code in codes]


@pytest.mark.parametrize(
    "sender, code, seen",
    [
        # The even parity bit of a seven-bit code is the exclusive or of its bits: A (41h) has 0,
        # C (43h) has 1.
        (SEVEN_EVEN, 0x41, 0x41),
        (SEVEN_EVEN, 0x43, 0xC3),
        (SEVEN_ODD, 0x41, 0xC1),
        (SEVEN_ODD, 0x43, 0x43),
        (LineFormat(9600, 7, "mark"), 0x41, 0xC1),
        (LineFormat(9600, 7, "space"), 0x41, 0x41),
    ],
)
def test_a_parity_bit_is_an_eighth_data_bit_to_who_expects_none(sender, code, seen):
    assert heard(bytes([code]), sender, EIGHT_NONE) == [(seen, "")]


def test_eight_bits_taken_for_seven_and_parity_give_parity_errors_where_bit_7_is_not_the_parity():
    found = heard(bytes(range(256)), EIGHT_NONE, SEVEN_EVEN)
    assert [code for code, _ in found] == [*range(128), *range(128)]
    assert [error for _, error in found] == [
        "parity" * (byte.bit_count() % 2) for byte in range(256)
    ]


def test_odd_for_even_parity_is_an_error_in_every_character():
    assert heard(EVERY_CODE, SEVEN_ODD, SEVEN_EVEN) == [(code, "parity") for code in EVERY_CODE]


def test_a_missing_stop_bit_is_a_framing_error():
    """One data bit more than expected, and that bit 0.

    The listener finds it where the stop bit should be.
    """
    assert heard(b"\x41", EIGHT_NONE, LineFormat(9600, 7, "none")) == [(0x41, "framing")]


@pytest.mark.parametrize(
    "line, limit",
    [
        (LineFormat(9600, 8, "none"), 0.5 / 9.5),
        (LineFormat(9600, 8, "even"), 0.5 / 10.5),
        (LineFormat(9600, 7, "none"), 0.5 / 8.5),
        (LineFormat(9600, 5, "none"), 0.5 / 6.5),
    ],
)
def test_a_clock_may_be_off_by_half_a_bit_at_the_middle_of_the_stop_bit(line, limit):
    """Ideal centre sampling bears so much.

    5.263 % for a frame of 10 bits, 4.762 % for 11, 5.882 % for 9, 7.692 % for 7.
    """
    codes = bytes([0, (1 << line.data_bits) - 1] * 3 + [0, 0])
    right = [(code, "") for code in codes]
    # The listener's bit is this much of the sender's: the limit is symmetrical in it.
    assert heard(codes, line, line, 1 + limit * 0.99) == right
    assert heard(codes, line, line, 1 - limit * 0.99) == right
    assert heard(codes, line, line, 1 + limit * 1.01) != right
    assert heard(codes, line, line, 1 - limit * 1.01) != right


def test_twice_the_speed_reads_each_bit_as_two():
    """U (55h) at half the speed.

    Start 0, then 1 0 1 0 ... become 0 0, 1 1, 0 0, 1 1, 0: the listener's start bit, then
    0 1 1 0 0 1 1 0 from bit 0 on, which is 66h, and a stop bit at 0.
    """
    assert heard(b"U", LineFormat(4800), LineFormat(9600))[0] == (0b01100110, "framing")


def test_an_inverted_line_begins_a_frame_at_a_mark_that_ends_within_the_character():
    """U is 0 1010101 0 1 on the wire, inverted 1 0101010 1 0: its first 0 is taken for a start."""
    found = heard(b"U", EIGHT_NONE, EIGHT_NONE, 1.0, "", True)
    assert found == [(0x55, "framing")]
