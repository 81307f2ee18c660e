"""The loop for the scope: the bits of its frames and what the scope must show."""

import pytest
from hypothesis import given
from hypothesis import strategies as some

from termprobe.link.base import LineFormat
from termprobe.session.react import waveform

LETTER = {"N": "none", "E": "even", "O": "odd", "M": "mark", "S": "space"}


def frame(name, speed_baud=9600):
    return LineFormat(speed_baud, int(name[0]), LETTER[name[1]], int(name[2]))


SQUARE = {
    "8N1": True,
    "7E1": True,
    "7S1": True,
    "7N1": False,
    "7O1": False,
    "7M1": False,
    "8E1": False,
    "8O1": False,
    "8N2": False,
}
"""Whether U (55h) back to back is a square wave at half the rate: common practice for 8N1.

Each other follows from the bits 0 1010101 0|parity 1 written out by hand: only where data and
parity end low before the one stop bit does it alternate.
"""


@pytest.mark.parametrize("name", SQUARE)
def test_u_is_a_square_wave_at_half_the_rate_in_these_formats_alone(name):
    told = " ".join(waveform.waveform(waveform.Loop(b"U", frame(name))))
    assert ("half the bit rate" in told) == SQUARE[name]
    if SQUARE[name]:
        assert "4.8 kHz" in told


@pytest.mark.parametrize(
    "name, bits",
    [
        ("8N1", "0100000101"),  # A, 41h: start, 1000 0010 lowest first, stop
        ("7E1", "0100000101"),  # two ones in 41h: even parity is 0
        ("7O1", "0100000111"),
        ("8N2", "01000001011"),
    ],
)
def test_frame_bits_of_capital_a(name, bits):
    assert "".join(str(bit) for bit in waveform.frame_bits(0x41, frame(name))) == bits


def test_nul_and_del_make_one_pulse_a_character():
    assert (
        "A rectangular wave of 960 Hz: 937.5 us low, 104.2 us high."
        in waveform.waveform(waveform.Loop(b"\0", frame("8N1")))[0]
    )
    assert (
        "104.2 us low, 937.5 us high" in waveform.waveform(waveform.Loop(b"\xff", frame("8N1")))[0]
    )


def test_a_gap_is_told_with_the_time_of_a_whole_round():
    told = waveform.waveform(waveform.Loop(b"U", frame("8N1", 1000), gap_s=0.09))
    assert told[0] == "1 character in 10 ms, then idle for 90 ms: again every 100 ms (10 Hz)."


@given(some.binary(min_size=1, max_size=6), some.sampled_from(sorted(SQUARE)))
def test_the_told_period_repeats_to_the_bits_that_are_sent(data, name):
    bits = waveform.line_bits(data, frame(name))
    size = waveform.period_bits(bits)
    assert bits[:size] * (len(bits) // size) == bits
    assert sum(count for _, count in waveform.stretches_of(bits[:size])) == size
    levels = [level for level, _ in waveform.stretches_of(bits[:size])]
    assert levels == [0, 1] * (len(levels) // 2), "begins with the falling edge, ends high"
