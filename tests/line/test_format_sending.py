"""A text in each setting reads right where it should, on a simulated board too."""

import pytest

from helpers.format_boards import FormatBench
from termprobe.board.cable.host_side import HostAdapter
from termprobe.line.format_sending import (
    ReadAs,
    boards_that_read,
    formats_to_send,
    reads,
    send_formats,
)
from termprobe.line.formats import FRAMES, WireFormat
from termprobe.link.base import LineFormat

SENT = formats_to_send()


def numbers_on(format, adapter=None):
    """Return (numbers that read right on the screen of a board, what was refused)."""
    bench = FormatBench(format, adapter=adapter, is_whole=True)
    bench.board.receive(b"\x1a")
    seen, before = set(), []

    def look(setting):
        rows = bench.board.screen().rows
        seen.update(each.number for each in before[-1:] if any(each.label in row for row in rows))
        bench.board.receive(b"\x1a")
        before.append(setting)

    _, refused = send_formats(bench.link, bench.clock, look)
    return seen, refused


def test_the_slow_ones_come_last_and_each_text_names_its_setting():
    speeds = [each.format.speed_baud for each in SENT]
    assert speeds == sorted(speeds, reverse=True) and len(SENT) == len({each.text for each in SENT})
    assert SENT[0].text == b"\r\n1 19200 7E1  1 19200 7E1"


@pytest.mark.parametrize("frame", FRAMES)
def test_where_wrong_frames_show_a_text_reads_right_at_one_setting_only(frame):
    board = ReadAs(WireFormat(1200, *frame), True)
    (readable,) = [each for each in SENT if reads(board, each)]
    assert readable.format == LineFormat(1200, *frame)
    assert boards_that_read(SENT, {readable.number}) == (board,)


@pytest.mark.parametrize("frame", FRAMES)
def test_where_they_do_not_show_the_board_is_among_those_that_are_named(frame):
    board = ReadAs(WireFormat(1200, *frame), False)
    readable = {each.number for each in SENT if reads(board, each)}
    assert board in boards_that_read(SENT, readable)


@pytest.mark.parametrize("format", [LineFormat(300, 7, "even"), LineFormat(19200, 7, "odd")])
def test_a_simulated_board_shows_what_is_predicted(format):
    seen, _ = numbers_on(format)
    board = ReadAs(WireFormat(format.speed_baud, format.data_bits, format.parity), False)
    assert seen == {each.number for each in SENT if reads(board, each)}
    assert board in boards_that_read(SENT, seen)


def test_rates_that_the_adapter_refuses_are_told():
    seen, refused = numbers_on(LineFormat(1200, 7, "even"), HostAdapter(lowest_baud=600))
    assert set(refused) == {110, 150, 300} and seen


def test_no_board_reads_what_none_can_read():
    assert boards_that_read(SENT, {1, 60}) == () == boards_that_read(SENT, ())
