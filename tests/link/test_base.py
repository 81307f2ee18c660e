"""The time that a format takes, and what every Link keeps, whatever is behind it.

The far end is played by the test: it takes, and it replies.
"""

import pytest

from helpers.lines import PtyBoard, TcpBoard, arrived, taken
from termprobe.board.base import Emitted
from termprobe.board.board import Board
from termprobe.board.cable.link import CableLink
from termprobe.board.link import SimLink
from termprobe.clock import CrankedClock, SystemClock
from termprobe.errors import LinkError, LinkSettingsError
from termprobe.link.base import ABILITIES, LineFormat, unable
from termprobe.link.breaks import send_break
from termprobe.link.open import open_port
from termprobe.link.pacer import Pacer
from termprobe.profile.load import load

FORMAT = LineFormat(9600, 7, "even", 1)
EVERY_CODE = bytes(range(128))


class LoopBoard:
    """loop:// brings back what was written, so the link itself is the far end."""

    path = "loop://"
    link = None

    def reply(self, data):
        self.link.write(data)

    def got(self, count):
        return arrived(self.link, count)

    def vanish(self):
        pass


class SimBoard(Board):
    """The simulated board, which keeps what it receives and sends what it is told."""

    path = "sim:"

    def __init__(self):
        self.received, self.to_send = b"", []
        super().__init__(load("singlebyte-24x80"))

    def receive(self, data):
        self.received += data

    def take_sent(self):
        sent, self.to_send = self.to_send, []
        return sent

    def reply(self, data):
        self.to_send += [Emitted(0.0, bytes([code])) for code in data]

    def got(self, count):
        return self.received

    def vanish(self):
        pass


class CableBoard(SimBoard):
    """The same at the far end of a cable, where characters take their time."""

    def got(self, count):
        while len(self.received) < count and self.link.unsent():
            self.link.drain(5.0)
        self.link.read(0.05)
        return self.received


class Far:
    """One link and what is at its far end."""

    def __init__(self, board, clock, link):
        self.board, self.clock, self.link = board, clock, link
        self.reply = board.reply

    def got(self, count):
        return self.board.got(count)


class PortFar(Far):
    """The far end of a port that the system has."""

    def __init__(self, board):
        clock = SystemClock()
        super().__init__(board, clock, open_port(board.path, FORMAT, clock))

    def got(self, count):
        return taken(self.board, count)


def looped():
    clock, board = SystemClock(), LoopBoard()
    board.link = open_port(board.path, FORMAT, clock)
    return Far(board, clock, board.link)


def simulated():
    clock, board = CrankedClock(), SimBoard()
    return Far(board, clock, SimLink(board, clock, FORMAT, board.path))


def cabled():
    clock, board = CrankedClock(), CableBoard()
    board.link = CableLink(board, clock, FORMAT, board.path)
    return Far(board, clock, board.link)


FARS = {
    "loop": looped,
    "socket": lambda: PortFar(TcpBoard()),
    "pty": lambda: PortFar(PtyBoard()),
    "sim": simulated,
    "cable": cabled,
}
ABLE = {
    "loop": {"lines"},
    "socket": set(),
    "pty": set(),
    "sim": {"frames", "lines", "break", "marks", "unsent"},
    "cable": set(ABILITIES),
}
"""What a link of each kind can do. A stream of characters has no frame to be set."""


@pytest.mark.parametrize(
    "format, bits, words",
    [
        (LineFormat(9600, 7, "even", 1), 10, "9600 baud 7E1"),
        (LineFormat(110, 8, "none", 2), 11, "110 baud 8N2"),
        (LineFormat(), 10, "9600 baud 8N1"),
    ],
)
def test_a_character_takes_start_data_parity_and_stop(format, bits, words):
    assert (format.frame_bits, str(format)) == (bits, words)
    assert format.character_s == pytest.approx(bits / format.speed_baud)


@pytest.fixture(params=FARS)
def far(request):
    far = FARS[request.param]()
    yield far
    far.link.close()
    far.board.vanish()


def test_it_bears_the_name_and_format_that_it_was_given(far):
    assert (far.link.name, far.link.format) == (far.board.path, FORMAT)


def test_it_says_in_one_line_what_is_not_as_asked_for_or_nothing(far):
    assert isinstance(far.link.note, str) and "\n" not in far.link.note


def test_every_code_reaches_the_board_in_order(far):
    far.link.write(EVERY_CODE)
    assert far.got(128) == EVERY_CODE


def test_separate_writes_stay_in_order(far):
    for number in range(100):
        far.link.write(bytes([number]))
    assert far.got(100) == bytes(range(100))


def test_writing_nothing_sends_nothing(far):
    far.link.write(b"")
    far.link.write(b"x")
    assert far.got(1) == b"x"


def test_every_code_from_the_board_is_received_in_order_and_without_error(far):
    far.reply(EVERY_CODE)
    pieces = []
    while sum(len(piece.data) for piece in pieces) < 128:
        fresh = far.link.read(5.0)
        assert fresh, "a read that waits brings something"
        pieces += fresh
    assert b"".join(piece.data for piece in pieces) == EVERY_CODE
    assert {piece.error for piece in pieces} == {""}


def test_what_arrives_bears_the_time_of_the_clock(far):
    before_s = far.clock.now_s()
    far.reply(b"first")
    pieces = far.link.read(5.0)
    far.reply(b"second")
    pieces += far.link.read(5.0)
    times = [before_s] + [piece.at_s for piece in pieces] + [far.clock.now_s()]
    assert times == sorted(times)


def test_reading_where_nothing_comes_gives_nothing(far):
    assert far.link.read(0) == ()
    assert far.link.read(0.02) == ()


def test_nothing_is_given_twice(far):
    far.reply(b"once")
    assert arrived(far.link, 4) == b"once"
    assert far.link.read(0.02) == ()


def test_draining_tells_that_all_has_left(far):
    far.link.write(b"x" * 20)
    assert far.link.drain(5.0) is True
    assert far.got(20) == b"x" * 20


def test_control_lines_are_all_four_or_none(far):
    lines = far.link.lines()
    assert lines is None or (
        set(lines) == {"cts", "dsr", "dcd", "ri"}
        and all(isinstance(on, bool) for on in lines.values())
    )


def test_a_line_is_driven_or_refused_and_one_that_is_none_is_refused(far):
    for line in ("rts", "dtr", "break"):
        for on in (True, False):
            try:
                far.link.set_line(line, on)
            except LinkError as error:
                assert line in str(error)
    with pytest.raises(LinkError):
        far.link.set_line("reset", True)


def test_it_is_able_to_what_its_kind_is(far, request):
    kind = request.node.callspec.params["far"]
    assert far.link.abilities == ABLE[kind]
    assert far.link.abilities <= set(ABILITIES)


def test_what_a_link_cannot_do_in_words():
    assert unable(ABILITIES) == ""
    assert unable(set(ABILITIES) - {"break", "counters"}) == (
        "cannot send a break; cannot count the errors of the line"
    )
    assert unable((), ("break",)) == "cannot send a break"


def test_what_it_is_not_able_to_is_refused_or_told_to_be_unknown(far):
    link, able = far.link, far.link.abilities
    assert (link.lines() is None) == ("lines" not in able)
    assert (link.unsent() is None) == ("unsent" not in able)
    assert (link.break_s() is None) == ("break-length" not in able)
    assert bool(link.counters()) <= ("counters" in able)
    for line in ("rts", "dtr", "break"):
        needed = {"break": "break"}.get(line, "lines")
        if needed in able:
            link.set_line(line, True)
            link.set_line(line, False)
        else:
            with pytest.raises(LinkSettingsError, match=line):
                link.set_line(line, True)


def test_nothing_is_unsent_once_all_has_left(far):
    far.link.write(b"x" * 20)
    assert far.link.drain(5.0)
    assert far.link.unsent() in (0, None)


def test_another_frame_is_taken_while_it_is_open(far):
    eight = LineFormat(9600, 8, "none", 1)
    far.link.set_format(eight)
    assert far.link.format == eight
    far.link.write(b"AC")
    assert far.got(2) == b"AC"


def test_a_wrong_parity_is_marked_where_it_marks_errors(far):
    far.link.set_format(LineFormat(9600, 7, "odd", 1))
    far.reply(b"A")
    (received,) = far.link.read(5.0)
    wanted = {True: "parity", False: ""}["marks" in far.link.abilities]
    assert (received.data, received.error) == (b"A", wanted)


def test_a_break_reaches_the_board_as_a_code_0_or_is_refused(far):
    if "break" in far.link.abilities:
        assert send_break(far.link, far.clock, 0.1)
        assert far.got(1) == b"\0"
    else:
        with pytest.raises(LinkSettingsError, match="break"):
            send_break(far.link, far.clock, 0.1)


@pytest.mark.parametrize(
    "format",
    [LineFormat(0), LineFormat(9600, 9), LineFormat(9600, 8, "x"), LineFormat(9600, 8, "none", 3)],
)
def test_a_frame_that_no_line_has_is_refused_and_the_old_one_stays(far, format):
    with pytest.raises(LinkSettingsError, match="must be"):
        far.link.set_format(format)
    assert far.link.format == FORMAT
    far.link.write(b"still")
    assert far.got(5) == b"still"


def test_closing_twice_is_no_error_and_afterwards_every_call_is(far):
    far.reply(b"unread")
    far.link.close()
    far.link.close()
    for call in (
        lambda: far.link.write(b"x"),
        lambda: far.link.read(0),
        lambda: far.link.drain(0),
        far.link.lines,
        lambda: far.link.set_line("rts", True),
        lambda: far.link.set_format(FORMAT),
        far.link.unsent,
        far.link.break_s,
        far.link.counters,
    ):
        with pytest.raises(LinkError, match="open"):
            call()


def test_paced_characters_arrive_like_others(far):
    pacer = Pacer(far.link, far.clock)
    start_s = far.clock.now_s()
    pacer.send(EVERY_CODE)
    pacer.settle(0.01)
    assert far.got(128) == EVERY_CODE
    assert far.clock.now_s() - start_s >= 128 * FORMAT.character_s + 0.01
    assert pacer.statistics.characters == 128
