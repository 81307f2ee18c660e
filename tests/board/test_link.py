"""The simulated board's link: parity, speed, handshake, and the time of what arrives."""

import dataclasses

import pytest

from termprobe.board.board import Board
from termprobe.board.link import SimLink, board_format
from termprobe.clock import CrankedClock
from termprobe.errors import LinkLostError, LinkSettingsError
from termprobe.link.base import LineFormat
from termprobe.profile.load import load

PROFILE = load("singlebyte-24x80")
EIGHT_NONE = LineFormat(9600, 8, "none")


def linked(*faults, format=None, profile=PROFILE):
    board = Board(profile, faults)
    board.receive(b"\x1a")
    return board, SimLink(board, CrankedClock(), format)


def typed(text, *faults, format=None, profile=PROFILE):
    """Return [(byte, error)] as the link gives them after `text` has been typed."""
    board, link = linked(*faults, format=format, profile=profile)
    board.type(text)
    return [(received.data, received.error) for received in link.read(0)]


def test_the_board_has_the_frame_of_its_profile_and_the_speed_of_the_link_where_its_switch_has_it():
    assert board_format(PROFILE) == LineFormat(9600, 7, "even", 1)
    assert board_format(PROFILE, 300).speed_baud == 300
    assert board_format(PROFILE, 38400).speed_baud == 9600
    assert SimLink(Board(PROFILE), CrankedClock()).format == LineFormat(9600, 7, "even", 1)


@pytest.mark.parametrize("speed_baud", PROFILE.link.speeds_baud)
def test_every_speed_of_the_board_carries_both_ways(speed_baud):
    board, link = linked(format=LineFormat(speed_baud, 7, "even"))
    link.write(b"Hi")
    board.type("Ho")
    assert board.screen().rows[0].strip() == "Hi"
    assert [(received.data, received.error) for received in link.read(0)] == [
        (b"H", ""),
        (b"o", ""),
    ]


def test_a_speed_that_the_board_has_not_carries_nonsense():
    board, link = linked(format=LineFormat(38400, 7, "even"))
    link.write(b"Hi")
    assert "Hi" not in board.screen().rows[0]


def test_eight_bits_without_parity_show_the_parity_bit_of_the_board():
    assert typed("AC", format=EIGHT_NONE) == [(b"A", ""), (b"\xc3", "")]
    board, link = linked(format=EIGHT_NONE)
    link.write(b"AC")
    assert board.screen().rows[0].strip() == "AC"  # the board does not mind a wrong parity bit


@pytest.mark.parametrize(
    "name, errors",
    [
        ("parity/inverted", ["parity", "parity"]),
        ("parity/fixed/0", ["", "parity"]),
        ("parity/fixed/1", ["parity", ""]),
    ],
)
def test_faults_of_the_parity_bit_that_is_sent(name, errors):
    assert typed("AC", name) == [(b"A", errors[0]), (b"C", errors[1])]


def test_a_clock_that_is_off_a_little_does_no_harm_and_one_that_is_off_much_does():
    right = [(b"H", ""), (b"i", "")]
    assert typed("Hi", "baud/ratio/1.03") == typed("Hi", "baud/ratio/0.97") == right
    for name in ("baud/ratio/2", "baud/ratio/0.5", "baud/ratio/1.1"):
        assert typed("Hi", name) != right
        board, link = linked(name)
        link.write(b"Hi there")
        assert "Hi there" not in board.screen().rows[0]


def shaking(handshake):
    return dataclasses.replace(PROFILE, link=dataclasses.replace(PROFILE.link, handshake=handshake))


def test_a_board_with_a_handshake_by_line_waits_for_rts():
    board, link = linked(profile=shaking("rts-cts"))
    link.set_line("rts", False)
    board.type("A")
    assert link.read(0) == ()
    link.set_line("rts", True)
    assert [received.data for received in link.read(0)] == [b"A"]


def test_a_board_with_a_handshake_by_code_waits_between_xoff_and_xon():
    board, link = linked(profile=shaking("xon-xoff"))
    link.write(b"\x13")
    board.type("A")
    assert link.read(0) == ()
    link.write(b"\x11")
    assert [received.data for received in link.read(0)] == [b"A"]


@pytest.mark.parametrize("handshake", ["rts-cts", "xon-xoff", "none"])
def test_a_board_that_ignores_or_has_no_handshake_does_not_wait(handshake):
    board, link = linked(
        *["handshake-gate/ignored"] * (handshake != "none"), profile=shaking(handshake)
    )
    link.set_line("rts", False)
    link.write(b"\x13")
    board.type("A")
    assert [received.data for received in link.read(0)] == [b"A"]


def test_what_is_due_later_arrives_when_it_is_due():
    board, link = linked()
    clock = link._clock
    board.take_sent = iter([[(0.0, b"a"), (0.004, b"a")], *[[]] * 99]).__next__
    assert [(received.at_s, received.data) for received in link.read(1.0)] == [(0.0, b"a")]
    assert clock.now_s() == 0
    assert [(received.at_s, received.data) for received in link.read(1.0)] == [(0.004, b"a")]
    assert clock.now_s() == 0.004
    assert link.read(0.25) == ()
    assert clock.now_s() == pytest.approx(0.254)


def test_who_serves_a_board_is_told_when_the_next_code_is_due():
    clock, board = CrankedClock(), Board(PROFILE, ["key-matrix/key-bounces/q"])
    link = SimLink(board, clock)
    assert link.due_s(0.02) == 0.02
    board.press("q")
    assert [one.data for one in link.read(0)] == [b"q"]
    second_s = link.due_s(0.02)
    assert 0 < second_s < 0.02 and link.due_s(0.001) == 0.001
    clock.sleep_until(clock.now_s() + second_s)
    assert link.due_s(0.02) == 0 and [one.data for one in link.read(0)] == [b"q"]


def test_a_break_is_a_code_0_to_the_board():
    board, link = linked()
    link.write(b"\x1b=")
    link.set_line("break", True)
    link.set_line("break", False)
    link.write(b"%A")  # the break took the place of the row
    assert board.screen().rows[0][5] == "A"


def test_a_line_that_is_none_and_a_link_that_is_closed_are_refused():
    _, link = linked()
    with pytest.raises(LinkSettingsError, match="rts, dtr or break"):
        link.set_line("cts", True)
    link.close()
    with pytest.raises(LinkLostError, match="closed"):
        link.write(b"x")
