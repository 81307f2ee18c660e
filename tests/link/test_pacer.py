"""Pacing: exact deadlines on a clock that is cranked by hand, pauses and settle times.

And boards that hold the line.
"""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.lines import PtyBoard, taken
from termprobe.clock import CrankedClock, SystemClock
from termprobe.errors import LinkError, LinkSettingsError
from termprobe.link.base import LineFormat, Received
from termprobe.link.open import open_port
from termprobe.link.pacer import Pacer, Pacing

USUAL = LineFormat()
XON, XOFF = b"\x11", b"\x13"  # DC1 and DC3, RFC 20 section 2; their use for this is common practice


class RecordingLink:
    """A link on a cranked clock; `handed` lists (time, bytes).

    `plays` maps a number of characters to what comes back after them.
    """

    name = "recording"

    def __init__(self, clock, format=USUAL, plays=(), write_takes_s=0.0):
        self.clock, self.format = clock, format
        self.handed, self.incoming = [], []
        self.plays = dict(plays)
        self.write_takes_s = write_takes_s
        self.cts_at = None
        self.later = []

    def write(self, data):
        self.handed.append((self.clock.now_s(), data))
        self.clock.sleep_until(self.clock.now_s() + self.write_takes_s)
        for count in [count for count in self.plays if count <= len(self.sent)]:
            self.incoming.append(Received(self.clock.now_s(), self.plays.pop(count)))

    @property
    def sent(self):
        return b"".join(data for _, data in self.handed)

    def read(self, wait_s):
        due = [data for at_s, data in self.later if at_s <= self.clock.now_s()]
        self.later = [(at_s, data) for at_s, data in self.later if at_s > self.clock.now_s()]
        arrived, self.incoming = tuple(self.incoming), []
        return arrived + tuple(Received(self.clock.now_s(), data) for data in due)

    def drain(self, limit_s):
        return True

    def lines(self):
        if self.cts_at is None:
            return None
        return {"cts": self.clock.now_s() >= self.cts_at, "dsr": True, "dcd": True, "ri": False}


FORMATS = st.builds(
    LineFormat,
    st.sampled_from([110, 300, 1200, 9600, 19200]),
    st.sampled_from([7, 8]),
    st.sampled_from(["none", "even"]),
    st.sampled_from([1, 2]),
)


def paced(format=USUAL, gap_s=0.0, **more):
    clock = CrankedClock()
    link = RecordingLink(clock, format, **more)
    return clock, link, Pacer(link, clock, gap_s)


@given(FORMATS, st.binary(min_size=1, max_size=300))
def test_sending_takes_exactly_the_time_that_the_line_needs(format, data):
    clock, link, pacer = paced(format)
    pacer.send(data)
    pacer.settle(0)
    assert link.sent == data
    assert clock.now_s() == pytest.approx(len(data) * format.frame_bits / format.speed_baud)
    assert pacer.statistics.late == 0


@given(FORMATS, st.binary(min_size=1, max_size=300))
def test_never_more_than_sixteen_characters_are_ahead_of_the_line(format, data):
    _, link, pacer = paced(format)
    pacer.send(data)
    count = 0
    for at_s, chunk in link.handed:
        count += len(chunk)
        assert len(chunk) <= 16
        assert count - at_s / format.character_s <= 16 + 1e-6
        assert at_s <= (count - len(chunk)) * format.character_s + 1e-9, (
            "and the line never waits for the computer"
        )


@given(FORMATS, st.floats(0.0005, 0.5), st.binary(min_size=1, max_size=60))
def test_a_gap_stands_between_any_two_characters(format, gap_s, data):
    clock, link, pacer = paced(format, gap_s)
    pacer.send(data)
    times = [at_s for at_s, chunk in link.handed for _ in chunk]
    assert [len(chunk) for _, chunk in link.handed] == [1] * len(data)
    assert times == pytest.approx(
        [number * (format.character_s + gap_s) for number in range(len(data))]
    )
    pacer.settle(0)
    assert clock.now_s() == pytest.approx(len(data) * (format.character_s + gap_s))


@given(FORMATS, st.floats(0.0005, 0.5), st.floats(1.0, 32.0))
def test_slower_stretches_each_character_and_the_gap_behind_it_alike(format, gap_s, times):
    clock, _, pacer = paced(format, gap_s)
    pacer.set_pace(times)
    pacer.send(b"xx")
    pacer.settle(0)
    assert clock.now_s() == pytest.approx(2 * times * (format.character_s + gap_s))


def test_settling_counts_from_the_last_bit():
    clock, _, pacer = paced(LineFormat(9600))
    pacer.send(b"x" * 96)
    pacer.settle(0.25)
    assert clock.now_s() == pytest.approx(0.1 + 0.25)
    pacer.settle(0.25)
    assert clock.now_s() == pytest.approx(0.6), "each settle time is waited for"
    pacer.send(b"x" * 96)
    pacer.settle(0)
    assert clock.now_s() == pytest.approx(0.7), (
        "and the time in which nothing was sent is not made up for"
    )


def test_several_sends_share_one_line():
    clock, link, pacer = paced(LineFormat(9600))
    for _ in range(96):
        pacer.send(b"x")
    pacer.settle(0)
    assert clock.now_s() == pytest.approx(0.1)
    assert len(link.handed) == 96


def test_nothing_to_send_takes_no_time():
    clock, link, pacer = paced()
    pacer.send(b"")
    pacer.settle(0)
    assert (clock.now_s(), link.handed, pacer.statistics) == (0, [], Pacing())


def test_a_computer_that_is_too_slow_is_said_to_be():
    _, link, pacer = paced(LineFormat(9600), write_takes_s=0.02)  # eight characters need 8.3 ms
    pacer.send(b"x" * 80)
    pacer.settle(0)
    statistics = pacer.statistics
    assert statistics.characters == 80
    assert statistics.late > 0
    assert statistics.worst_late_s > 0
    last_bit_s = link.handed[-1][0] + 8 * 10 / 9600
    assert 80 / last_bit_s < 960 / 2


def test_a_delay_shorter_than_what_is_ahead_costs_nothing():
    clock, link, pacer = paced(LineFormat(9600))
    link.write_takes_s = 0.004
    pacer.send(b"x" * 96)
    pacer.settle(0)
    assert pacer.statistics.late == 0
    assert clock.now_s() == pytest.approx(0.1)


def test_a_late_character_does_not_shorten_the_next_pause():
    _, link, pacer = paced(LineFormat(9600), gap_s=0.01)
    pacer.send(b"a")
    link.write_takes_s = 0.03
    pacer.send(b"b")
    link.write_takes_s = 0.0
    pacer.send(b"cdef")
    times = [at_s for at_s, _ in link.handed]
    assert min(later - earlier for earlier, later in pairwise(times)) >= 0.009


def test_small_delays_after_settling_do_not_add_up_and_large_ones_shorten_nothing():
    clock, link, pacer = paced(LineFormat(9600))
    for delay_s in (0.0001, 0.0002, 0.0, 0.3):
        pacer.send(b"abcd")
        pacer.settle(0.005)
        clock.sleep_until(clock.now_s() + delay_s)
    pacer.send(b"e")
    command_s = 4 * 10 / 9600 + 0.005
    assert [at_s for at_s, _ in link.handed] == pytest.approx(
        [0, command_s + 0.0001, 2 * command_s + 0.0002, 3 * command_s, 4 * command_s + 0.3]
    )


def test_xoff_stops_and_xon_goes_on():
    clock = CrankedClock()
    link = RecordingLink(clock, plays={10: XOFF})
    pacer = Pacer(link, clock, handshake="xon-xoff")
    link.later = [(1.0, b"between" + XON)]
    pacer.send(b"x" * 50)
    before = [at_s for at_s, _ in link.handed if at_s < 1.0]
    assert len(b"".join(data for at_s, data in link.handed if at_s < 1.0)) <= 14, (
        "at most four characters after the stop"
    )
    assert before and link.sent == b"x" * 50
    after = [at_s for at_s, _ in link.handed if at_s >= 1.0]
    assert after[0] == pytest.approx(1.0, abs=0.05)
    assert pacer.statistics.late == 0, "waiting for the board is not being late"
    assert b"".join(received.data for received in pacer.read(0)) == XOFF + b"between" + XON, (
        "nothing received is lost"
    )
    assert pacer.read(0) == ()


@pytest.mark.parametrize(
    "stream, is_held",
    [(XOFF, True), (XOFF + XON, False), (XON + XOFF, True), (XOFF * 3 + XON, False), (XON, False)],
)
def test_the_last_word_counts(stream, is_held):
    clock = CrankedClock()
    link = RecordingLink(clock)
    pacer = Pacer(link, clock, handshake="xon-xoff", hold_limit_s=2.0)
    link.incoming = [Received(0.0, bytes([code])) for code in stream]
    if is_held:
        with pytest.raises(LinkError, match="held it by xon-xoff for 2 s"):
            pacer.send(b"x")
        assert link.sent == b""
    else:
        pacer.send(b"x")
        assert link.sent == b"x"


def test_a_stop_that_was_seen_while_reading_holds_the_next_send():
    clock = CrankedClock()
    link = RecordingLink(clock)
    pacer = Pacer(link, clock, handshake="xon-xoff", hold_limit_s=1.0)
    link.incoming = [Received(0.0, XOFF)]
    assert pacer.read(0) == (Received(0.0, XOFF),)
    with pytest.raises(LinkError, match="xon-xoff"):
        pacer.send(b"x")


def test_without_the_handshake_the_codes_are_only_data():
    clock = CrankedClock()
    link = RecordingLink(clock, plays={1: XOFF})
    pacer = Pacer(link, clock)
    pacer.send(b"x" * 50)
    assert link.sent == b"x" * 50
    assert pacer.read(0)[0].data == XOFF


def test_clear_to_send_is_waited_for():
    clock = CrankedClock()
    link = RecordingLink(clock)
    link.cts_at = 3.0
    pacer = Pacer(link, clock, handshake="rts-cts")
    pacer.send(b"abc")
    assert link.handed[0][0] == pytest.approx(3.0, abs=0.01)


def test_a_board_that_never_clears_to_send_is_told_from_a_port_without_the_line():
    clock = CrankedClock()
    link = RecordingLink(clock)
    with pytest.raises(LinkSettingsError, match="control lines"):
        Pacer(link, clock, handshake="rts-cts").send(b"x")
    link.cts_at = 1e9
    with pytest.raises(LinkError, match="rts-cts for 30 s"):
        Pacer(link, clock, handshake="rts-cts").send(b"x")


def test_a_line_that_does_not_empty_is_an_error():
    clock, link, pacer = paced()
    link.drain = lambda limit_s: False
    pacer.send(b"x")
    with pytest.raises(LinkError, match="recording: .*must take what was sent"):
        pacer.settle(0)


def test_a_real_pseudo_terminal_gets_everything_no_faster_than_the_line():
    board = PtyBoard()
    clock = SystemClock()
    data = bytes(range(256)) * 2
    with open_port(board.path, LineFormat(38400), clock) as link:
        pacer = Pacer(link, clock)
        start_s = clock.now_s()
        pacer.send(data)
        pacer.settle(0.01)
        assert clock.now_s() - start_s >= len(data) * 10 / 38400 + 0.01
        assert taken(board, len(data)) == data
    board.vanish()
