"""The marks that a POSIX port puts into its stream are read, in any chunks.

POSIX.1-2017, section 11.2.2, PARMRK.
"""

import os
import termios
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from helpers.lines import PtyBoard
from termprobe.link.marks import BAD, BREAK_ERROR, MarkParser

ITEMS = st.one_of(
    st.tuples(st.binary(min_size=1, max_size=6), st.just("")),
    st.tuples(st.integers(1, 255).map(lambda code: bytes([code])), st.just(BAD)),
    st.just((b"\0", BREAK_ERROR)),
)


def as_port_delivers(items):
    """The standard's rule.

    FF 00 stands before a character in error, FF 00 00 for a break, FF FF for a good FF.
    """
    stream = b""
    for data, mark in items:
        if mark:
            stream += b"\xff\0" + data
        else:
            stream += data.replace(b"\xff", b"\xff\xff")
    return stream


def joined(pieces):
    """Neighbouring characters of one kind as single characters, so that chunks do not matter."""
    return [(code, mark) for data, mark in pieces for code in data]


@given(st.lists(ITEMS, max_size=12), st.data())
def test_every_stream_is_read_back_whatever_the_chunks(items, data):
    stream = as_port_delivers(items)
    cuts = sorted(data.draw(st.lists(st.integers(0, len(stream)), max_size=8)))
    parser = MarkParser()
    pieces = [
        piece
        for start, end in pairwise([0, *cuts, len(stream)])
        for piece in parser.feed(stream[start:end])
    ]
    assert joined(pieces) == joined(items)


@given(st.lists(st.binary(max_size=9), max_size=6))
def test_no_bytes_are_refused(chunks):
    parser = MarkParser()
    for chunk in chunks:
        assert all(data and mark in ("", BAD, BREAK_ERROR) for data, mark in parser.feed(chunk))


def test_the_three_sequences_of_the_standard():
    assert MarkParser().feed(b"a\xff\0Bc") == ((b"a", ""), (b"B", BAD), (b"c", ""))
    assert MarkParser().feed(b"\xff\0\0") == ((b"\0", BREAK_ERROR),)
    assert MarkParser().feed(b"a\xff\xffb") == ((b"a\xffb", ""),)


def test_an_unfinished_mark_waits_for_its_rest():
    parser = MarkParser()
    assert parser.feed(b"\xff") == ()
    assert parser.feed(b"\0") == ()
    assert parser.feed(b"Z") == ((b"Z", BAD),)


def test_the_system_doubles_ff_just_so():
    """The kernel itself as the outside source: a pseudo-terminal with PARMRK set."""
    board = PtyBoard()
    port = os.open(board.path, os.O_RDWR | os.O_NOCTTY)
    settings = termios.tcgetattr(port)
    settings[0] |= termios.PARMRK | termios.INPCK
    termios.tcsetattr(port, termios.TCSANOW, settings)
    board.reply(b"\x01\xff\x02\xff")
    stream = os.read(port, 100)
    os.close(port)
    board.vanish()
    assert stream == b"\x01\xff\xff\x02\xff\xff"
    assert MarkParser().feed(stream) == ((b"\x01\xff\x02\xff", ""),)
