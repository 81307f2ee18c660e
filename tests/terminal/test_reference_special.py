"""National variants, dark rows and contents that are sent back: both models tell the same.

They share nothing but the profile; what the small screens must show is written out by hand.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.examples import examples
from helpers.special import special
from termprobe.board.board import Board
from termprobe.terminal.reference import Reference

CLEAR, HOME, LINE, SCREEN = b"\x02", b"\x1c", b"\x1bL", b"\x1bS"
TO_CURSOR, LINE_TO_CURSOR = b"\x1bT", b"\x1bU"


def at(row, column):
    return bytes([0x1D, 0x30 + column, 0x30 + row])


TAGS = CLEAR + b"".join(at(row, 0) + bytes([0x41 + row]) for row in range(24))


class Both:
    """The reference and a simulated board, which get the same."""

    def __init__(self):
        self.reference, self.board = Reference(special()), Board(special())
        self.told = b""
        self.receive(CLEAR)

    def receive(self, data):
        self.reference.feed(data)
        self.board.receive(data)
        return self

    def set(self, option, position):
        self.reference.set_options({option: position})
        self.board.set_option(option, position)
        return self.receive(HOME)

    def shown(self):
        """Return the rows without blanks at their ends, which both must have, and the cursor."""
        one, other = self.reference.screen(), self.board.screen()
        assert one.rows == other.rows and one.cursor == other.cursor
        return " ".join(row.rstrip() or "." for row in one.rows), one.cursor

    def sent(self):
        """Return what both have sent back since the last call."""
        replies = self.reference.screen().replies
        told, self.told = replies[len(self.told) :], replies
        assert b"".join(data for _, data in self.board.take_sent()) == told
        return told


def test_a_variant_is_what_the_same_codes_look_like():
    both = Both().receive(b"#$@[\\]^`{|}~AZaz09")
    assert both.shown()[0].split()[0] == "#$@[\\]^`{|}~AZaz09"
    assert both.set("character-set", "german").shown()[0].split()[0] == "#$§ÄÖÜ^`äöüßAZaz09"
    assert both.set("character-set", "swedish").shown()[0].split()[0] == "#¤ÉÄÖÅÜéäöåüAZaz09"
    assert both.set("character-set", "ascii").shown()[0].split()[0] == "#$@[\\]^`{|}~AZaz09"


def test_with_half_of_the_rows_every_second_is_dark_and_shown_again_as_it_was():
    both = Both().receive(TAGS)
    tags = " ".join("ABCDEFGHIJKLMNOPQRSTUVWX")
    assert both.shown()[0] == tags
    assert both.set("rows", "12").shown()[0] == "A . C . E . G . I . K . M . O . Q . S . U . W ."
    both.receive(CLEAR + b"ONE\r\nTWO" + at(11, 0) + b"END" + at(12, 3) + b"-")
    lit = ["ONE", "TWO", *["."] * 9, "END-"]
    assert both.shown() == (" . ".join(lit) + " .", (22, 4))
    shown = both.set("rows", "24").shown()[0].split()
    assert shown[1::2] == list("BDFHJLNPRTVX") and shown[::2][:2] == ["ONE", "TWO"]


def test_scrolling_half_of_the_rows_brings_in_a_blank_one_and_no_dark_one():
    both = Both().receive(TAGS).set("rows", "12").receive(at(11, 0) + b"\n")
    assert both.shown()[0] == "C . E . G . I . K . M . O . Q . S . U . W . . ."


def test_what_is_kept_is_sent_and_nothing_else():
    both = Both().receive(b"AB\r\n[D  " + at(1, 3))
    both.sent()
    assert both.receive(LINE).sent() == b"[D\r"
    assert both.receive(LINE_TO_CURSOR).sent() == b"[D \r"
    assert both.receive(SCREEN).sent() == b"AB\r[D" + b"\r" * 22 + b"\x04"
    assert both.receive(TO_CURSOR).sent() == b"AB".ljust(40) + b"\r[D \x04"
    assert both.set("character-set", "german").receive(b"\n" + LINE).sent() == b"[D\r"
    assert both.set("rows", "12").receive(SCREEN).sent().count(b"\r") == 11


def test_nothing_is_sent_in_local():
    board = Board(special())
    board.set_option("line", "local")
    board.receive(b"\x05" + LINE + SCREEN)
    assert board.take_sent() == []


PIECES = st.one_of(
    st.sampled_from([CLEAR, HOME, b"\n", b"\r", b"\x19", b"\x16", b"\x06", LINE, SCREEN, b"\x05"]),
    st.builds(at, st.integers(0, 24), st.integers(0, 40)),
    st.text(st.characters(min_codepoint=0x20, max_codepoint=0x7E), max_size=50).map(str.encode),
    st.sampled_from(["24", "12", "ascii", "german"]),
)


@examples(25)
@given(st.lists(PIECES, max_size=25))
def test_both_models_tell_the_same_whatever_comes(pieces):
    both = Both()
    for piece in pieces:
        if isinstance(piece, bytes):
            both.receive(piece)
        else:
            both.set("rows" if piece.isdigit() else "character-set", piece)
    both.shown()
    both.sent()


@pytest.mark.parametrize("position", ["24", "12"])
def test_a_cursor_report_counts_the_lit_rows(position):
    both = Both().set("rows", position).receive(at(7, 5) + b"\x1b?")
    assert both.sent() == bytes([0x1D, 0x35, 0x37]) + b"\r"
