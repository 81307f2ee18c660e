"""A link over a cable: the time that things take, breaks, and an adapter that is pulled."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.examples import examples
from termprobe.board.board import Board
from termprobe.board.cable.host_side import HostAdapter
from termprobe.board.cable.link import HELD_LIMIT_S, CableLink, side_of
from termprobe.clock import CrankedClock
from termprobe.errors import LinkError, LinkLostError, LinkSettingsError
from termprobe.link.base import LineFormat
from termprobe.link.breaks import send_break
from termprobe.profile.load import load

PROFILE = load("singlebyte-24x80")
CHARACTER_S = 10 / 9600


def linked(**settings):
    board, clock = Board(PROFILE), CrankedClock()
    board.receive(b"\x1a")
    return board, clock, CableLink(board, clock, **settings)


def shown(board):
    return board.screen().rows[0].strip()


def test_characters_take_the_time_that_the_line_needs():
    board, clock, link = linked()
    link.write(b"HELLO")
    assert (link.unsent(), clock.now_s()) == (5, 0.0)
    assert link.drain(2 * CHARACTER_S) is False and link.unsent() == 3
    assert link.drain(1.0) is True and clock.now_s() == pytest.approx(5 * CHARACTER_S)
    link.read(0.001)
    assert shown(board) == "HELLO"


def test_each_character_bears_its_own_moment():
    board, clock, link = linked()
    board.type("AB")
    times = [received.at_s for _ in "AB" for received in link.read(1.0)]
    assert times == pytest.approx([9.5 * CHARACTER_S / 10, 19.5 * CHARACTER_S / 10], rel=0.01)


def test_ten_thousand_characters_in_either_direction_arrive_in_their_time():
    board, clock, link = linked(wiring="loopback-plug", adapter=HostAdapter(send_characters=100))
    data = bytes(number % 128 for number in range(10_000))
    got = bytearray()
    for start in range(0, len(data), 1000):
        link.write(data[start : start + 1000])
        got += b"".join(received.data for received in link.read(0.0))
    assert link.drain(60.0)
    got += b"".join(received.data for received in link.read(0.0))
    assert got == data
    assert clock.now_s() == pytest.approx(10_000 * CHARACTER_S, rel=1e-6)


def test_a_board_of_another_speed_and_frame_hears_nonsense_until_the_link_follows():
    board, _, link = linked(format=LineFormat(1200, 8, "none"))
    link.write(b"AAAA")
    link.drain(1.0)
    link.read(0.1)
    assert "A" not in shown(board)
    link.set_format(LineFormat(9600, 7, "even"))
    link.write(b"\x1aHi")
    link.drain(1.0)
    link.read(0.1)
    assert shown(board) == "Hi"


def test_a_break_of_a_given_length_comes_back_with_that_length():
    _, clock, link = linked(wiring="loopback-plug")
    link.write(b"A")
    assert send_break(link, clock, 0.25)
    link.write(b"B")
    link.drain(1.0)
    found = [(received.data, received.error) for received in link.read(0.1)]
    assert found == [(b"A", ""), (b"\0", "break"), (b"B", "")]
    assert link.break_s() == pytest.approx(0.25, abs=1e-3)


def test_a_break_is_a_code_0_to_the_board():
    board, clock, link = linked()
    link.write(b"\x1b=")
    send_break(link, clock, 0.1)
    link.write(b"%A")  # the break took the place of the row
    link.drain(1.0)
    link.read(0.1)
    assert board.screen().rows[0][5] == "A"


def test_an_adapter_that_is_pulled_gives_what_had_come_and_is_lost_then():
    board, clock, link = linked()
    link.plan_pull(2.5 * CHARACTER_S)
    board.type("ABC")
    found = b""
    with pytest.raises(LinkLostError, match="adapter must stay plugged in"):
        while True:
            found += b"".join(received.data for received in link.read(1.0))
    assert found == b"AB"
    for call in (lambda: link.write(b"x"), lambda: link.drain(1.0), link.lines, link.unsent):
        with pytest.raises(LinkLostError):
            call()
    link.close()


def test_an_adapter_that_is_pulled_in_the_middle_of_a_write_or_a_drain_is_lost():
    _, _, link = linked(adapter=HostAdapter(send_characters=10))
    link.plan_pull(5.5 * CHARACTER_S)
    with pytest.raises(LinkLostError):
        link.write(bytes(1000))
    _, _, link = linked()
    link.plan_pull(5.5 * CHARACTER_S)
    link.write(bytes(1000))
    with pytest.raises(LinkLostError):
        link.drain(10.0)


def test_a_line_that_is_held_takes_no_more_after_a_while():
    _, clock, link = linked(adapter=HostAdapter(send_characters=10))
    link.set_line("break", True)
    with pytest.raises(LinkError, match="takes no more"):
        link.write(bytes(11))
    assert clock.now_s() == pytest.approx(HELD_LIMIT_S, abs=0.05)
    assert link.drain(1.0) is False and link.unsent() == 10


@given(
    data=st.binary(min_size=1, max_size=6),
    steps_s=st.lists(st.floats(0.0, 0.003), max_size=20),
    other=st.sampled_from([LineFormat(9600, 7, "even"), LineFormat(4800, 8), LineFormat(10000, 7)]),
)
@examples(25)
def test_what_arrives_does_not_depend_on_when_somebody_looks(data, steps_s, other):
    _, _, at_once = linked(wiring="loopback-plug")
    _, clock, in_steps = linked(wiring="loopback-plug")
    found = []
    for link in (at_once, in_steps):
        link.cable.host.end.receiver.set_format(other, 1.0)
        link.write(data)
    for step_s in steps_s:
        clock.sleep_until(clock.now_s() + step_s)
        found += in_steps.read(0.0)
    clock.sleep_until(1.0)
    found += in_steps.read(0.0)
    at_once._clock.sleep_until(1.0)
    assert found == list(at_once.read(0.0))


def test_what_a_board_is_by_its_profile():
    side = side_of(Board(PROFILE), 300)
    assert side.format == LineFormat(300, 7, "even") and side.handshake == "none"


def test_a_line_that_is_none_is_refused():
    _, _, link = linked()
    with pytest.raises(LinkSettingsError, match='not "cts"'):
        link.set_line("cts", True)


def test_reading_ends_when_it_should_where_nothing_comes():
    _, clock, link = linked()
    assert link.read(0.25) == () and clock.now_s() == pytest.approx(0.25)
