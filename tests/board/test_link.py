"""The simulated board's link: frames heard bit by bit, parity, speed, handshake, and the time of what arrives."""

import dataclasses

import pytest

from termprobe.board.board import Board
from termprobe.board.frame import heard
from termprobe.board.link import SimLink, board_format
from termprobe.clock import CrankedClock
from termprobe.errors import LinkLostError, LinkSettingsError
from termprobe.link.base import LineFormat
from termprobe.profile.load import load

PROFILE = load("singlebyte-24x80")
SEVEN_EVEN, SEVEN_ODD, EIGHT_NONE = (
    LineFormat(9600, 7, "even"),
    LineFormat(9600, 7, "odd"),
    LineFormat(9600, 8, "none"),
)
EVERY_CODE = bytes(range(128))


def linked(*faults, format=None, profile=PROFILE):
    board = Board(profile, faults)
    board.receive(b"\x1a")
    return board, SimLink(board, CrankedClock(), format)


def typed(text, *faults, format=None, profile=PROFILE):
    """Return [(byte, error)] as the link gives them after `text` has been typed."""
    board, link = linked(*faults, format=format, profile=profile)
    board.type(text)
    return [(received.data, received.error) for received in link.read(0)]


# -- frames ------------------------------------------------------------------------------------------------------------


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
        # The even parity bit of a seven-bit code is the exclusive or of its bits: A (41h) has 0, C (43h) has 1.
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
        "parity" if byte.bit_count() % 2 else "" for byte in range(256)
    ]


def test_odd_for_even_parity_is_an_error_in_every_character():
    assert heard(EVERY_CODE, SEVEN_ODD, SEVEN_EVEN) == [(code, "parity") for code in EVERY_CODE]


def test_a_missing_stop_bit_is_a_framing_error():
    """One data bit more than expected, and that bit 0: the listener finds it where the stop bit should be."""
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
    """Ideal centre sampling: 5.263 % for a frame of 10 bits, 4.762 % for 11, 5.882 % for 9, 7.692 % for 7."""
    codes = bytes([0, (1 << line.data_bits) - 1] * 3 + [0, 0])
    right = [(code, "") for code in codes]
    # The listener's bit is this much of the sender's: the limit is symmetrical in it.
    assert heard(codes, line, line, 1 + limit * 0.99) == right
    assert heard(codes, line, line, 1 - limit * 0.99) == right
    assert heard(codes, line, line, 1 + limit * 1.01) != right
    assert heard(codes, line, line, 1 - limit * 1.01) != right


def test_twice_the_speed_reads_each_bit_as_two():
    """U (55h) at half the speed: start 0, then 1 0 1 0 ... become 0 0, 1 1, 0 0, 1 1, 0: the listener's start bit, then
    0 1 1 0 0 1 1 0 from bit 0 on, which is 66h, and a stop bit at 0."""
    assert heard(b"U", LineFormat(4800), LineFormat(9600))[0] == (0b01100110, "framing")


# -- the link ----------------------------------------------------------------------------------------------------------


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
