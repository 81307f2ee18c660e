"""Characters as levels in time."""

import math

import pytest

from termprobe.board.cable.pins import InputPin, OutputPin
from termprobe.board.cable.transmitter import Transmitter, edges
from termprobe.board.cable.voltages import LEVELS
from termprobe.link.base import LineFormat

RS232 = LEVELS["rs232"]
TEN_BITS = LineFormat(1000, 8, "none", 1)


def made(format=TEN_BITS, **settings):
    output, pin = OutputPin(RS232), InputPin(RS232)
    output.join(0.0, pin)
    return Transmitter(output, format, **settings), pin


def advance(transmitter, limit_s):
    while (at_s := transmitter.next_s) <= limit_s:
        transmitter.advance(max(at_s, 0.0))


def heard(pin):
    """Return the changes that the pin hears, in whole milliseconds."""
    found = []
    while change := pin.next_edge(math.inf):
        found.append((round(change.at_s * 1000), change.is_space))
    return found


def test_a_frame_is_start_data_lowest_bit_first_and_stop():
    """U, 55h, is 1 0 1 0 1 0 1 0 from bit 0 on: a square wave of half the rate."""
    transmitter, pin = made()
    transmitter.put(0.0, b"U")
    advance(transmitter, 0)
    assert heard(pin) == [(number, number % 2 == 0) for number in range(10)]


@pytest.mark.parametrize(
    "code, parity, fault, last",
    [
        # The even parity bit of A (41h) is 0, of C (43h) 1.
        (0x41, "even", "", True),
        (0x43, "even", "", False),
        (0x41, "odd", "", False),
        (0x41, "even", "inverted", False),
        (0x43, "even", "0", True),
    ],
)
def test_the_parity_bit(code, parity, fault, last):
    format = LineFormat(1000, 7, parity)
    spaces, is_space = [], False
    changes = {edge.bit: edge.is_space for edge in edges(code, format, fault)}
    for bit in range(format.frame_bits):
        is_space = changes.get(bit, is_space)
        spaces.append(is_space)
    assert spaces[8] == last and not spaces[9]


def test_characters_follow_one_another_and_all_stop_bits_are_sent():
    transmitter, pin = made(LineFormat(1000, 8, "none", 2))
    transmitter.put(0.0, b"\xff\xff")
    advance(transmitter, 1)
    assert heard(pin) == [(0, True), (1, False), (11, True), (12, False)]


def test_a_clock_that_is_fast():
    transmitter, pin = made(speed_ratio=2.0)
    transmitter.put(0.0, b"\xff\xff")
    advance(transmitter, 1)
    assert [at for at, _ in heard(pin)] == [0, 0, 5, 6]


def test_how_many_wait_and_when_all_has_left():
    transmitter, _ = made()
    transmitter.put(0.0, b"abc")
    assert transmitter.unsent(0.0) == 3
    transmitter.advance(0.0)
    assert transmitter.unsent(0.0) == 3 and transmitter.free_s(0.0) == pytest.approx(0.03)
    advance(transmitter, 0.025)
    assert transmitter.unsent(0.025) == 1 and transmitter.unsent(0.031) == 0


def test_it_waits_until_it_may_send():
    transmitter, pin = made()
    allowed = []
    transmitter.may_send = lambda: bool(allowed)
    transmitter.put(0.0, b"\xff")
    assert transmitter.next_s == math.inf
    allowed.append(True)
    transmitter.advance(0.5)
    assert heard(pin) == [(500, True), (501, False)]


def test_a_break_cuts_what_is_sent_and_holds_the_line_until_it_ends():
    transmitter, pin = made()
    transmitter.put(0.0, b"\xff\xff")
    transmitter.advance(0.0)
    transmitter.set_break(0.005, True)
    transmitter.set_break(0.005, True)
    assert transmitter.next_s == math.inf
    transmitter.set_break(0.105, False)
    advance(transmitter, 1)
    assert heard(pin)[:5] == [(0, True), (1, False), (5, True), (105, False), (106, True)]


def test_a_break_in_its_turn():
    transmitter, pin = made()
    transmitter.put(0.0, b"\xff")
    transmitter.put_break(0.0, 0.1)
    transmitter.put(0.0, b"\xff")
    advance(transmitter, 1)
    found = heard(pin)
    assert found == [(0, True), (1, False), (10, True), (110, False), (111, True), (112, False)]


def test_what_is_put_first_goes_first_and_what_is_forgotten_does_not_go():
    transmitter, _ = made()
    transmitter.put(0.0, b"abc")
    transmitter.put_first(0.0, 0x13)
    assert transmitter.unsent(0.0) == 4
    transmitter.forget()
    assert transmitter.unsent(0.0) == 0
