"""A board on its end: its room, its handshake, its levels and its clock."""

import dataclasses

import pytest

from termprobe.board.board import Board
from termprobe.board.cable.link import CableLink, side_of
from termprobe.clock import CrankedClock
from termprobe.profile.load import load

PROFILE = load("singlebyte-24x80")


def linked(*faults, wiring="crossed", **changes):
    board = Board(PROFILE, faults)
    board.receive(b"\x1a")
    side = dataclasses.replace(side_of(board), **changes)
    return board, CableLink(board, CrankedClock(), wiring=wiring, side=side)


def received(link, wait_s=0.1):
    found = []
    while fresh := link.read(wait_s):
        found += fresh
    return b"".join(one.data for one in found)


def shown(board, link, data):
    link.write(data)
    link.drain(10.0)
    link.read(1.0)
    return board.screen().rows[0].strip()


def test_a_board_that_is_slower_than_the_line_loses_what_it_has_no_room_for():
    character_s = 10 / 9600
    board, link = linked(takes_s=3 * character_s)
    text = shown(board, link, b"ABCDEFGHIJKL")
    lost = link.cable.board.lost
    assert text.startswith("ABC") and len(text) + lost == 12 and 4 <= lost <= 8


@pytest.mark.parametrize("handshake, line", [("rts-cts", "cts"), ("dtr", "dsr")])
def test_a_board_without_room_lets_its_line_fall_and_raises_it_again(handshake, line):
    board, link = linked(
        takes_s=0.1, handshake=handshake, buffer_characters=8, full_at=4, free_at=1
    )
    link.write(b"ABCDE")
    link.drain(1.0)
    link.read(0.001)
    assert link.lines()[line] is False
    link.read(0.35)
    assert link.lines()[line] is True
    link.read(1.0)
    assert board.screen().rows[0].strip() == "ABCDE" and link.cable.board.lost == 0


def test_a_board_without_room_sends_xoff_and_xon():
    board, link = linked(
        takes_s=0.1, handshake="xon-xoff", buffer_characters=8, full_at=4, free_at=1
    )
    link.write(b"ABCDE")
    assert received(link, 0.5) == b"\x13\x11"


def test_a_board_waits_for_cts_where_its_handshake_has_it():
    board, link = linked(handshake="rts-cts")
    link.set_line("rts", False)
    board.type("AB")
    assert received(link) == b""
    link.set_line("rts", True)
    assert received(link) == b"AB"


@pytest.mark.parametrize("line, driven", [("cts", "rts"), ("dsr", "dtr"), ("dcd", "dtr")])
def test_a_board_waits_for_the_lines_that_it_is_said_to_wait_for(line, driven):
    board, link = linked(waits_for=(line,))
    link.set_line(driven, False)
    board.type("A")
    assert received(link) == b""
    link.set_line(driven, True)
    assert received(link) == b"A"


def test_a_board_that_waits_for_a_line_that_the_cable_has_not_never_sends():
    board, link = linked(wiring="three-wire", waits_for=("cts",))
    board.type("A")
    assert received(link) == b""
    board, link = linked(wiring="rts-cts-at-board", waits_for=("cts",))
    board.type("A")
    assert received(link) == b"A"


def test_xoff_stops_a_board_after_the_character_that_it_sends_and_xon_lets_it_go_on():
    board, link = linked(handshake="xon-xoff")
    link.write(b"\x13")
    link.drain(1.0)
    board.type("ABC")
    assert received(link) == b""
    link.write(b"\x11")
    assert received(link) == b"ABC"


def test_a_board_whose_handshake_is_ignored_does_not_wait():
    fault = dataclasses.replace(PROFILE.link, handshake="rts-cts")
    board = Board(dataclasses.replace(PROFILE, link=fault), ["handshake-gate/ignored"])
    link = CableLink(board, CrankedClock())
    link.set_line("rts", False)
    board.type("A")
    assert received(link) == b"A"


@pytest.mark.parametrize(
    "levels, is_understood",
    [("rs232", True), ("ttl-inverted", True), ("ttl", False), ("rs232-inverted", False)],
)
def test_levels_that_a_computer_understands_and_that_it_does_not(levels, is_understood):
    board, link = linked(levels=levels)
    assert (shown(board, link, b"Hi") == "Hi") == is_understood
    board.type("A")
    assert (received(link) == b"A") == is_understood


def test_inverted_levels_are_a_break_that_does_not_end():
    board, link = linked(levels="ttl")
    first = link.read(0.1)[0]
    assert (first.data, first.error) == (b"\0", "break")
    link.read(0.5)
    assert link.break_s() > 0.4


def test_the_board_s_own_clock_and_parity():
    board, link = linked("baud/ratio/1.03")
    assert shown(board, link, b"Hi") == "Hi"
    board, link = linked("baud/ratio/1.1")
    assert shown(board, link, b"Hi there") != "Hi there"
    board, link = linked("parity/inverted")
    board.type("A")
    assert [(one.data, one.error) for one in link.read(0.1)] == [(b"A", "parity")]


def test_a_break_key_holds_the_line_for_a_while():
    board, link = linked()
    board.press("break")
    assert [(one.data, one.error) for one in link.read(0.1)] == [(b"\0", "break")]
    link.read(0.5)
    assert link.break_s() == pytest.approx(0.25, abs=1e-3)
