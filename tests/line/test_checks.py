"""Checks of a line in use with a loopback plug, of adapters that lie, and of what a board drives.

What a check uses and comes back with: termprobe/line/in_use.py.
"""

import pytest

from helpers.looped_line import TIES, LoopedInUse
from termprobe.clock import CrankedClock
from termprobe.line.checks import CHECKS, TOKEN
from termprobe.link.base import LineFormat

SEVEN = bytes(code & 0x7F for code in range(256))


def checked(check, format=None, **line):
    found = CHECKS[check](LoopedInUse(CrankedClock(), format or LineFormat(), **line))
    return found.is_right, found.said


@pytest.mark.parametrize("format", [LineFormat(), LineFormat(300, 7, "even"), LineFormat(110)])
def test_a_good_plug_on_a_good_adapter_passes_all_at_any_speed(format):
    """The loopback truth table: CTS follows RTS, DSR and DCD follow DTR, all codes come back."""
    for check in ("plug-bytes", "plug-rate", "plug-lines", "plug-break"):
        is_right, said = checked(check, format)
        assert is_right, said


def test_what_was_found_is_said():
    assert checked("plug-bytes")[1] == "all 254 codes came back"
    assert checked("plug-rate")[1].startswith("1440 characters at 9,6")
    assert checked("plug-lines")[1] == "CTS follows RTS; DSR and DCD follow DTR"
    assert checked("plug-break")[1] == "the break came back as a break, about 250 ms long"


def test_what_the_driver_counts_is_told_beside():
    line = LoopedInUse(CrankedClock())
    line.counted = ({"parity": 2, "framing": 1}, {"parity": 5, "framing": 1})
    assert CHECKS["plug-bytes"](line).said == (
        "all 254 codes came back; errors counted by the driver: 3 parity"
    )
    line.counted = ({"parity": 2},)
    assert CHECKS["plug-bytes"](line).said.endswith("; errors counted by the driver: none")


@pytest.mark.parametrize("check", ["plug-bytes", "plug-rate"])
def test_without_a_plug_nothing_is_said_against_anybody(check):
    is_right, said = checked(check, spoil=lambda data: b"")
    assert is_right is None and "plug" in said


def test_an_adapter_that_drops_the_eighth_bit_is_told_by_that_bit():
    is_right, said = checked("plug-bytes", spoil=lambda data: data.translate(SEVEN))
    assert is_right is False and said.endswith("bits 7") and "changed" in said


def test_characters_that_are_lost_on_the_way_fail():
    is_right, said = checked("plug-bytes", spoil=lambda data: data.replace(b"A", b""))
    assert is_right is False and said == "of 254 codes 1 lost"


@pytest.mark.parametrize("real, claimed", [(75, 110), (9600, 1200), (300, 150)])
def test_an_adapter_that_runs_at_another_rate_than_it_says_is_found(real, claimed):
    """110 becomes 75 with some drivers, and a bad value 9600 with others."""
    is_right, said = checked("plug-rate", LineFormat(real), says=LineFormat(claimed))
    assert is_right is False and f"off {claimed:,}" in said


def test_a_control_line_that_does_not_follow_is_named():
    found = checked("plug-lines", ties={"rts": ("cts",)})
    assert found == (False, "DSR stays off whatever DTR does; DCD stays off whatever DTR does")
    found = checked("plug-lines", held={"cts": True})
    assert found == (False, "CTS stays on whatever RTS does")


@pytest.mark.parametrize("check", ["plug-lines", "board-lines"])
def test_a_port_without_control_lines_is_no_failure(check):
    assert checked(check, ties=None) == (None, "this port has no control lines")


@pytest.mark.parametrize(
    "back, is_right, said",
    [
        ("framing", True, "came back as a break"),
        ("nul", True, "does not tell breaks"),
        (None, None, "no break came back"),
    ],
)
def test_a_break_comes_back_in_one_way_or_another(back, is_right, said):
    found = checked("plug-break", back=back)
    assert found[0] is is_right and said in found[1]


def test_a_computer_that_hears_itself_is_told_from_one_that_hears_the_board():
    is_right, said = checked("no-echo")
    assert is_right is False and said.startswith("I hear myself")
    assert checked("no-echo", spoil=lambda data: b"")[0] is True
    is_right, said = checked("no-echo", spoil=lambda data: b"\x1b[2J"[: len(TOKEN)])
    assert is_right is None and said == 'something else came: ESC "[2J"'


def test_what_the_board_drives_is_read_and_what_is_tied_on_this_side_is_told():
    none = dict.fromkeys(TIES, ())
    assert checked("board-lines", ties=none, held={"dsr": True}) == (
        True,
        "on: DSR; off: CTS, DCD, RI",
    )
    is_right, said = checked("board-lines", ties=none)
    assert is_right is None and said.endswith("three wires, or the board is off")
    is_right, said = checked("board-lines")
    assert is_right is False and said.endswith(
        "CTS, DSR, DCD follow our own RTS or DTR, so they are tied on this side"
    )


def test_a_board_that_keeps_rts_cts_must_drive_a_line():
    line = LoopedInUse(CrankedClock(), LineFormat(), ties=dict.fromkeys(TIES, ()))
    line.handshake = "rts-cts"
    assert CHECKS["board-lines"](line).is_right is False
