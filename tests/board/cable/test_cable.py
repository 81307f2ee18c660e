"""Two ends and a cable between them, in time."""

import dataclasses

import pytest

from termprobe.board.board import Board
from termprobe.board.cable.board_side import CabledBoard
from termprobe.board.cable.cable import Cable
from termprobe.board.cable.host_side import CabledHost, HostAdapter
from termprobe.board.cable.link import side_of
from termprobe.profile.load import load

PROFILE = load("singlebyte-24x80")


def made(wiring="crossed", kind="dte"):
    board = Board(PROFILE)
    board.receive(b"\x1a")
    side = dataclasses.replace(side_of(board), kind=kind)
    host = CabledHost(HostAdapter(), side.format)
    for line in ("rts", "dtr"):
        host.end.drive(0.0, line, True)
    return Cable(host, CabledBoard(board, side), wiring), board


def sent(cable, board, data=b"ABC"):
    """Return (what the board shows, what comes back) after `data` is sent and a Q is pressed."""
    cable.host.end.transmitter.put(0.0, data)
    board.press("q")
    cable.advance(0.0)
    cable.advance(1.0)
    return board.screen().rows[0].strip(), b"".join(one.data for one in cable.host.take())


@pytest.mark.parametrize(
    "wiring, shown, back",
    [
        ("straight", "", b""),
        ("straight-data", "", b""),
        ("crossed", "ABC", b"q"),
        ("crossed-no-dcd", "ABC", b"q"),
        ("crossed-no-dtr", "ABC", b"q"),
        ("three-wire", "ABC", b"q"),
        ("three-wire-looped", "ABC", b"q"),
        ("rts-cts-at-computer", "ABC", b"q"),
        ("rts-cts-at-board", "ABC", b"q"),
        ("dtr-busy", "ABC", b"q"),
        ("loopback-plug", "", b"ABC"),
        ("loopback-board", "q", b""),
        ("data-joined", "", b"ABC"),
        ("transmit-only", "ABC", b""),
        ("receive-only", "", b"q"),
        ("nothing", "", b""),
    ],
)
def test_what_a_cable_carries_to_a_terminal(wiring, shown, back):
    assert sent(*made(wiring)) == (shown, back)


def test_a_board_that_is_wired_as_a_modem_wants_a_straight_cable():
    assert sent(*made("straight", "dce")) == ("ABC", b"q")
    assert sent(*made("crossed", "dce")) == ("", b"")


@pytest.mark.parametrize(
    "wiring, on",
    [
        ("straight", ""),
        ("crossed", "cts dsr dcd"),
        ("crossed-no-dcd", "cts dsr"),
        ("crossed-no-dtr", "cts"),
        ("three-wire", ""),
        ("rts-cts-at-computer", "cts"),
        ("dtr-busy", "cts"),
        ("loopback-plug", "cts dsr dcd"),
        ("nothing", ""),
    ],
)
def test_the_control_lines_that_are_on(wiring, on):
    cable, _ = made(wiring)
    lines = cable.host.lines(0.0)
    assert {line for line in lines if lines[line]} == set(on.split())


# The truth table of a loopback plug: RTS brings CTS, DTR brings DSR and DCD.
@pytest.mark.parametrize("rts", [True, False])
@pytest.mark.parametrize("dtr", [True, False])
def test_the_truth_table_of_a_loopback_plug(rts, dtr):
    cable, _ = made("loopback-plug")
    cable.host.end.drive(1.0, "rts", rts)
    cable.host.end.drive(1.0, "dtr", dtr)
    assert cable.host.lines(1.0) == {"cts": rts, "dsr": dtr, "dcd": dtr, "ri": False}


def test_every_code_comes_back_from_a_loopback_plug():
    cable, _ = made("loopback-plug")
    cable.host.set_format(dataclasses.replace(cable.host.end.receiver.format, data_bits=8))
    cable.host.end.transmitter.put(0.0, bytes(range(256)))
    cable.advance(1.0)
    assert b"".join(one.data for one in cable.host.take()) == bytes(range(256))


@pytest.mark.parametrize("plugged_at, shown", [(7.0, "ABsZ"), (4.95, "ABsFZ")])
def test_a_cable_that_is_pulled_in_mid_character_cuts_it_and_one_that_is_plugged_in_carries_on(
    plugged_at, shown
):
    """C, 43h, is cut behind its first four data bits: the others are marks, as in s, 73h.

    What is plugged in during the stop bit of E hears F as it is.
    """
    cable, board = made()
    character_s = cable.board.side.format.character_s
    cable.host.end.transmitter.put(0.0, b"ABCDEF")
    cable.host.end.transmitter.put(10 * character_s, b"Z")
    cable.plan(2.5 * character_s, cable.unplug)
    cable.plan(plugged_at * character_s, lambda at_s: cable.plug(at_s, "crossed"))
    cable.advance(1.0)
    assert board.screen().rows[0].strip() == shown


def test_another_cable_in_place_of_one():
    cable, board = made("nothing")
    cable.plug(0.0, "crossed")
    assert sent(cable, board) == ("ABC", b"q")
    cable.plug(1.0, "loopback-plug")
    cable.host.end.transmitter.put(1.0, b"x")
    cable.advance(2.0)
    assert [one.data for one in cable.host.take()] == [b"x"]
