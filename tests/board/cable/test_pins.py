"""Wires in time: what is driven is heard from then on, unless the cable is pulled before."""

import math

import pytest

from termprobe.board.cable.pins import InputPin, OutputPin
from termprobe.board.cable.voltages import LEVELS

RS232, TTL = LEVELS["rs232"], LEVELS["ttl"]


@pytest.fixture
def joined():
    output, pin = OutputPin(RS232), InputPin(RS232)
    output.join(0.0, pin)
    return output, pin


def test_levels_are_heard_from_their_moment_on(joined):
    output, pin = joined
    output.drive(1.0, True)
    output.drive(2.0, False)
    assert pin.next_s == 1.0
    heard = [pin.level_at(at_s) for at_s in (0.9, 1.0, 1.9, 2.0)]
    assert heard == [False, True, True, False] and pin.next_s == math.inf


def test_edges_are_taken_one_by_one(joined):
    output, pin = joined
    output.drive(1.0, True)
    assert pin.next_edge(0.5) is None
    assert pin.next_edge(1.0) == (1.0, True)
    assert pin.next_edge(9.0) is None


def test_what_was_to_come_does_not_after_a_cut(joined):
    output, pin = joined
    for at_s, is_space in ((1.0, True), (2.0, False), (3.0, True)):
        output.drive(at_s, is_space)
    output.cut(1.5, False)
    assert [pin.level_at(at_s) for at_s in (1.2, 1.5, 9.0)] == [True, False, False]


def test_a_cut_to_the_same_level_is_no_edge(joined):
    output, pin = joined
    output.drive(1.0, True)
    output.cut(1.5, True)
    assert pin.next_edge(9.0) == (1.0, True) and pin.next_edge(9.0) is None


def test_a_pin_that_is_parted_is_open_and_one_that_is_joined_hears_what_is_driven(joined):
    output, pin = joined
    output.drive(1.0, True)
    output.drive(4.0, False)
    output.part(2.0)
    assert [pin.level_at(at_s) for at_s in (1.5, 2.0)] == [True, False]
    output.join(3.0, pin)
    assert [pin.level_at(at_s) for at_s in (3.0, 3.9, 4.0)] == [True, True, False]


def test_a_pin_of_ttl_is_a_space_to_a_receiver_of_eia_232_until_it_is_parted():
    output, pin = OutputPin(TTL), InputPin(RS232)
    output.join(0.0, pin)
    assert pin.level_at(0.0) is True
    output.part(1.0)
    assert pin.level_at(1.0) is False
