"""An adapter that does not do what it is asked for, and buffers that are full."""

import pytest

from termprobe.board.board import Board
from termprobe.board.cable.host_side import HostAdapter
from termprobe.board.cable.link import CableLink
from termprobe.clock import CrankedClock
from termprobe.errors import LinkSettingsError
from termprobe.link.base import ABILITIES, LineFormat
from termprobe.profile.load import load

PROFILE = load("singlebyte-24x80")


def linked(format=None, wiring="crossed", **adapter):
    board = Board(PROFILE)
    board.receive(b"\x1a")
    link = CableLink(board, CrankedClock(), format, wiring=wiring, adapter=HostAdapter(**adapter))
    return board, link


def received(link):
    found = []
    while fresh := link.read(0.1):
        found += fresh
    return [(one.data, one.error) for one in found]


def test_a_perfect_adapter_makes_what_it_is_asked_for():
    format = LineFormat(110, 5, "mark", 2)
    assert HostAdapter().made_of(format) == format


def test_a_speed_that_is_rounded_takes_the_time_of_the_other_one():
    _, link = linked(LineFormat(110, 7, "even"), rounded_baud={110: 75})
    assert link.format.speed_baud == 110, "it says nothing"
    link.write(b"UUUU")
    start_s = link._clock.now_s()
    assert link.drain(5.0)
    assert link._clock.now_s() - start_s == pytest.approx(40 / 75, rel=0.01)


def test_a_speed_that_is_too_low_is_refused_and_the_old_one_stays():
    with pytest.raises(LinkSettingsError, match="300 baud or more, not 110"):
        linked(LineFormat(110, 7, "even"), lowest_baud=300)
    board, link = linked(lowest_baud=300)
    with pytest.raises(LinkSettingsError, match="sim:: speed must be 300 baud or more"):
        link.set_format(LineFormat(110, 7, "even"))
    assert link.format == LineFormat(9600, 7, "even")


def test_an_adapter_without_seven_bits_and_parity_shows_the_board_s_parity_bit():
    board, link = linked(data_bits=(8,), has_parity=False)
    board.type("AC")
    assert received(link) == [(b"A", ""), (b"\xc3", "")]
    link.write(b"AC")
    link.drain(1.0)
    link.read(0.1)
    assert board.screen().rows[0].strip() == "AC"


@pytest.mark.parametrize("ratio, is_understood", [(1.02, True), (0.98, True), (1.06, False)])
def test_a_clock_that_is_off(ratio, is_understood):
    board, link = linked(speed_ratio=ratio)
    link.write(b"Hi there")
    link.drain(1.0)
    link.read(0.1)
    assert (board.screen().rows[0].strip() == "Hi there") == is_understood


def test_what_is_not_read_in_time_is_lost_and_marked_once():
    board, link = linked(receive_characters=4)
    board.type("ABCDEFGH")
    assert link.unsent() == 0
    link._clock.sleep_until(1.0)
    found = received(link)
    assert found == [*[(code, "") for code in (b"A", b"B", b"C", b"D")], (b"", "overrun")]
    assert link.counters()["overrun"] == 4
    board.type("Z")
    assert received(link) == [(b"Z", "")]


def test_errors_are_counted_by_kind():
    board, link = linked(LineFormat(9600, 7, "odd"))
    board.type("AB")
    received(link)
    assert link.counters() == {"parity": 2, "framing": 0, "overrun": 0, "break": 0}


def test_an_adapter_that_marks_nothing_gives_a_break_as_a_code_0():
    board, link = linked(abilities=frozenset(ABILITIES) - {"marks", "counters", "break-length"})
    board.press("break")
    assert received(link) == [(b"\0", "")]
    assert (link.counters(), link.break_s()) == ({}, None)


def test_an_adapter_without_lines_tells_none_and_drives_none():
    _, link = linked(abilities=frozenset())
    assert (link.lines(), link.unsent()) == (None, None)
    for line in ("rts", "dtr", "break"):
        with pytest.raises(LinkSettingsError, match=line):
            link.set_line(line, True)
