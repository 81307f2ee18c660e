"""What a UART of 16 samples a bit makes of a wire."""

import math

import pytest

from termprobe.board.cable.pins import InputPin, OutputPin
from termprobe.board.cable.receiver import Receiver
from termprobe.board.cable.transmitter import Transmitter
from termprobe.board.cable.voltages import LEVELS
from termprobe.link.base import LineFormat
from termprobe.link.frame import heard

RS232 = LEVELS["rs232"]
EIGHT_NONE, SEVEN_EVEN = LineFormat(9600, 8, "none"), LineFormat(9600, 7, "even")
EVERY_CODE = bytes(range(128))
END_S = 100.0


def wire(sender, listener, ratio=1.0):
    output, pin = OutputPin(RS232), InputPin(RS232)
    output.join(0.0, pin)
    return Transmitter(output, sender, ratio), Receiver(pin, listener), output


def carried(data, sender, listener, ratio=1.0, begins_s=0.0):
    """Return [(code, error)] of what `listener` receives."""
    transmitter, receiver, _ = wire(sender, listener, ratio)
    transmitter.put(begins_s, data)
    while (at_s := transmitter.next_s) < END_S:
        transmitter.advance(max(at_s, begins_s))
    return [(one.data[0], one.error) for one in receiver.advance(END_S)]


@pytest.mark.parametrize(
    "sender, listener",
    [
        (SEVEN_EVEN, SEVEN_EVEN),
        (EIGHT_NONE, SEVEN_EVEN),
        (SEVEN_EVEN, EIGHT_NONE),
        (LineFormat(9600, 7, "odd"), SEVEN_EVEN),
        (EIGHT_NONE, LineFormat(9600, 7, "none")),
        (LineFormat(9600, 5, "mark", 2), LineFormat(9600, 5, "mark", 2)),
        (LineFormat(9600, 8, "space"), LineFormat(9600, 8, "none")),
    ],
    ids=str,
)
def test_it_receives_what_the_levels_of_the_frames_say(sender, listener):
    """frame.py works out the same from half bits, with one sample in the very middle of each.

    It knows no break: a code 0 whose stop bit is low as well.
    """
    codes = bytes(code for code in EVERY_CODE if code < 1 << sender.data_bits)
    for code in codes:
        one = bytes([code])
        told = carried(one, sender, listener)
        found = [(seen, error.replace("break", "framing")) for seen, error in told]
        assert found == list(heard(one, sender, listener))


def test_characters_without_a_gap():
    assert carried(EVERY_CODE, EIGHT_NONE, EIGHT_NONE) == [(code, "") for code in EVERY_CODE]


def test_twice_the_speed_reads_each_bit_as_two():
    """U (55h) at half the speed: the listener reads 0 1 1 0 0 1 1 0 from bit 0 on, then a 0."""
    found = carried(b"U", LineFormat(4800), LineFormat(9600))
    assert found[0] == (0b01100110, "framing")


def test_eight_bits_taken_for_seven_and_parity():
    """The error stands exactly where bit 7 is not the even parity of bits 0 to 6."""
    found = carried(bytes(range(256)), EIGHT_NONE, SEVEN_EVEN)
    assert found == [(byte & 0x7F, "parity" * (byte.bit_count() % 2)) for byte in range(256)]


@pytest.mark.parametrize(
    "line, sure, limit",
    [
        (EIGHT_NONE, 4.605, 5.263),
        (LineFormat(9600, 8, "even"), 4.167, 4.762),
        (LineFormat(9600, 7, "none"), 5.147, 5.882),
        (LineFormat(9600, 5, "none"), 6.731, 7.692),
    ],
)
@pytest.mark.parametrize("side", [1, -1])
def test_how_far_a_clock_may_be_off(line, sure, limit, side):
    """Half a bit at the stop bit: 5.263 per cent for ten bits; a sixteenth less is sure, 4.605.

    Worked out from the formula of an ideal receiver; 4.60 is printed in Circuit Cellar, answers of
    issue 296. A sixteenth of a bit passes until the start bit is found, wherever that begins.
    """
    highest = (1 << line.data_bits) - 1
    codes = bytes([0, highest, 0, highest, 0])
    right = [(code, "") for code in codes]

    def held(percent):
        ratio = 1 + side * percent / 100
        phases = (number / 9600 / 37 for number in range(37))
        return [carried(codes, line, line, ratio, begins_s) == right for begins_s in phases]

    assert all(held(sure * 0.99))
    assert not all(held(limit * 1.01))


def test_a_pulse_shorter_than_half_a_bit_is_no_start_bit():
    _, receiver, output = wire(EIGHT_NONE, EIGHT_NONE)
    for length, found in ((0.4, 0), (0.6, 1)):
        output.drive(1.0 + length, True)
        output.drive(1.0 + length + length / 9600, False)
        assert len(receiver.advance(1.0 + length + 1)) == found


def test_a_break_is_one_code_0_and_its_length_is_known():
    transmitter, receiver, output = wire(EIGHT_NONE, EIGHT_NONE)
    assert receiver.break_s(0.0) == 0
    output.drive(1.0, True)
    output.drive(1.25, False)
    assert [(one.data, one.error) for one in receiver.advance(1.1)] == [(b"\0", "break")]
    assert receiver.break_s(1.1) == pytest.approx(0.1, abs=1e-4)
    assert receiver.advance(2.0) == []
    assert receiver.break_s(2.0) == pytest.approx(0.25, abs=1e-4)
    transmitter.put(3.0, b"A")
    transmitter.advance(3.0)
    assert [one.data for one in receiver.advance(4.0)] == [b"A"]


def test_a_character_bears_the_moment_in_which_it_is_complete():
    """The middle of the stop bit: nine and a half bits, and up to a sixteenth to find the start."""
    transmitter, receiver, _ = wire(EIGHT_NONE, EIGHT_NONE)
    transmitter.put(0.0, b"A")
    transmitter.advance(0.0)
    due_s = receiver.next_s
    assert 9.5 / 9600 <= due_s <= 9.57 / 9600
    assert receiver.advance(due_s * 0.999) == [] and receiver.next_s == due_s
    (received,) = receiver.advance(due_s)
    assert received.at_s == due_s and receiver.next_s == math.inf


def test_another_format_while_a_character_is_on_its_way():
    transmitter, receiver, _ = wire(EIGHT_NONE, EIGHT_NONE)
    transmitter.put(0.0, b"\xff")
    transmitter.advance(0.0)
    receiver.advance(0.0005)
    receiver.set_format(SEVEN_EVEN, 1.0)
    assert receiver.advance(1.0) == []
