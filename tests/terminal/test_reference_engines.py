"""The reference under ecma48-24x80 against libvterm, an engine that shares nothing with it.

The streams are of their common subset.
"""

import contextlib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.examples import examples
from helpers.vterm import Vterm
from termprobe.profile.load import load
from termprobe.terminal.reference import Reference

PROFILE = load("ecma48-24x80")

# Left out by construction, each for a reason:
# - the column after IL and DL: libvterm keeps it, ECMA-48 8.3.67 and 8.3.32 go to the line home
#   position (so CR follows them);
# - what follows a filled last column other than text: no standard says what a pending wrap does
#   there, and tests/terminal/test_pyte_screen_pending.py lists what is done;
# - parameters that the profile does not declare, and more of them than a function has;
# - control strings other than DCS and OSC: libvterm 0.1.4 shows their contents, against ECMA-48
#   5.6;
# - what a control string says: libvterm answers a DCS that begins with $q, a private request that
#   no standard knows, so each begins with a letter that asks for nothing;
# - the rendition of blanks: libvterm 0.1.4 gives that of the pen to what it erases; tmux and
#   @xterm/headless do not.
TEXT = st.text(st.characters(min_codepoint=0x20, max_codepoint=0x7E), min_size=1, max_size=30).map(
    str.encode
)
NUMBER = st.one_of(st.just(b""), st.integers(1, 90).map(lambda n: b"%d" % n))
MOVE = st.tuples(NUMBER, st.sampled_from(list("ABCD"))).map(
    lambda p: b"\x1b[" + p[0] + p[1].encode()
)
ADDRESS = st.tuples(NUMBER, NUMBER, st.sampled_from([b"H", b"f"])).map(
    lambda p: b"\x1b[" + p[0] + b";" + p[1] + p[2]
)
ERASE = st.tuples(st.sampled_from([b"", b"0", b"1", b"2"]), st.sampled_from([b"J", b"K"])).map(
    lambda p: b"\x1b[" + p[0] + p[1]
)
EDIT = st.tuples(NUMBER, st.sampled_from([b"@", b"P"])).map(lambda p: b"\x1b[" + p[0] + p[1])
ROWS = st.tuples(NUMBER, st.sampled_from([b"L", b"M"])).map(
    lambda p: b"\x1b[" + p[0] + p[1] + b"\r"
)
STOPS = st.sampled_from([b"\x1bH", b"\x1b[g", b"\x1b[0g", b"\x1b[3g", b"\t", b"\t\t"])
RENDITION = st.lists(
    st.sampled_from([b"", b"0", b"1", b"4", b"5", b"7"]), min_size=1, max_size=4
).map(lambda p: b"\x1b[" + b";".join(p) + b"m")
STRING = st.tuples(st.sampled_from([b"\x1bP", b"\x1b]"]), TEXT).map(
    lambda p: p[0] + b"x" + p[1].replace(b"\\", b"/") + b"\x1b\\"
)
SINGLE = st.sampled_from(
    [
        b"\r",
        b"\n",
        b"\b",
        b"\t",
        b"\a",
        b"\x1bD",
        b"\x1bE",
        b"\x1bM",
        b"\x1b[6n",
        b"\x1b[5n",
        b"\0",
        b"\x7f",
    ]
)
STREAM = st.lists(
    st.one_of(TEXT, MOVE, ADDRESS, ERASE, EDIT, ROWS, STOPS, RENDITION, STRING, SINGLE), max_size=30
)


@contextlib.contextmanager
def engine():
    terminal = Vterm()
    try:
        yield terminal
    finally:
        terminal.close()


@examples(300)
@given(STREAM)
def test_the_same_bytes_give_the_same_screen_cursor_and_replies(parts):
    reference = Reference(PROFILE)
    with engine() as terminal:
        replies = b""
        for part in parts:
            reference.feed(part)
            terminal.feed(part)
            if terminal.cursor()[1] == 79:  # perhaps a pending wrap: leave it on both sides
                reference.feed(b"\r")
                terminal.feed(b"\r")
            replies += terminal.replies()
        screen = reference.screen()
        assert screen.rows == terminal.rows()
        assert screen.cursor == terminal.cursor()
        characters = [
            (row, column)
            for row in range(24)
            for column in range(80)
            if screen.rows[row][column] != " "
        ]
        assert [screen.renditions.get(cell, "") for cell in characters] == [
            terminal.rendition(*cell) for cell in characters
        ]
        assert screen.replies == replies


@pytest.mark.parametrize("columns", [79, 80, 81, 160, 161])
def test_text_over_the_margin_wraps_as_the_engine_does(columns):
    reference, data = Reference(PROFILE), bytes(0x21 + n % 90 for n in range(columns))
    with engine() as terminal:
        reference.feed(data + b"!")
        terminal.feed(data + b"!")
        assert reference.screen().rows == terminal.rows()


def test_a_full_screen_scrolls_as_the_engine_does():
    reference, data = Reference(PROFILE), bytes(0x21 + n % 89 for n in range(80 * 30 + 7))
    with engine() as terminal:
        reference.feed(data)
        terminal.feed(data)
        assert reference.screen().rows == terminal.rows()
        assert reference.screen().cursor == terminal.cursor()
