"""The reference under ecma48-24x80 against what the standard says."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.examples import examples
from termprobe.profile.encode import encode
from termprobe.profile.load import load
from termprobe.terminal.reference import Reference

ECMA = load("ecma48-24x80")


def shown(*parts):
    reference = Reference(ECMA)
    for part in parts:
        reference.feed(part)
    return reference.screen()


def test_pending_wrap_waits_for_the_next_character_and_is_left_by_any_move():
    """Common practice: the cursor stays in the last column until a character comes."""
    address = encode(ECMA, "address", row=5, column=79)
    assert shown(address, b"A").cursor == (5, 79)
    assert shown(address, b"AB").rows[6][0] == "B"
    assert shown(address, b"A\bB").rows[5][78:] == "BA"
    assert shown(address, b"A\x1b[5;80HB").rows[4][79] == "B"


@pytest.mark.parametrize(
    "data, cursor",
    [
        (b"\x1b[5;10H", (4, 9)),
        (b"\x1b[H", (0, 0)),
        (b"\x1b[;10H", (0, 9)),
        (b"\x1b[5H", (4, 0)),
        (b"\x1b[5;10f", (4, 9)),  # 8.3.21, 8.3.63
        (b"\x1b[5;10H\x1b[A", (3, 9)),
        (b"\x1b[5;10H\x1b[2B", (6, 9)),
        (b"\x1b[5;10H\x1b[3C", (4, 12)),
        (b"\x1b[5;10H\x1b[004D", (4, 5)),
        (b"\x1b[999;999H", (23, 79)),
        (b"\x1b[5;10H\x1bE", (5, 0)),
        (b"\x1b[5;10H\x1bM", (3, 9)),
        (b"\x1b[5;10H\x1bD", (5, 9)),  # 8.3.86, 8.3.104
        (b"\x1b[5;1\r0H", (4, 9)),
        (b"\x1b[5;\x1810H", (0, 3)),
        (b"\x1b[5\x1b[7;1H", (6, 0)),
    ],
)
def test_codings_of_ecma_48(data, cursor):
    """ECMA-48, 5th edition, 5.4 and the clauses named.

    A control character inside a sequence is common practice.
    """
    assert shown(data).cursor == cursor


@pytest.mark.parametrize(
    "data, row",
    [
        (b"\x1b[K", "ABCD      "),
        (b"\x1b[0K", "ABCD      "),
        (b"\x1b[1K", "     FGHIJ"),
        (b"\x1b[2K", "          "),  # 8.3.41
        (b"\x1b[2@", "ABCD  EFGHIJ"),
        (b"\x1b[2P", "ABCDGHIJ"),  # 8.3.64, 8.3.26
    ],
)
def test_erase_insert_and_delete_in_a_line(data, row):
    assert shown(b"ABCDEFGHIJ\x1b[1;5H" + data).rows[0].rstrip() == row.rstrip()


@pytest.mark.parametrize(
    "data, first_cells, cursor",
    [
        (b"\x1b[L", "A BC", (1, 0)),
        (b"\x1b[M", "AC", (1, 0)),
        (b"\x1b[J", "AB", (1, 1)),
        (b"\x1b[1J", "  C", (1, 1)),
        (b"\x1b[2J", "", (1, 1)),
    ],
)
def test_erase_insert_and_delete_lines(data, first_cells, cursor):
    """ECMA-48 8.3.39, 8.3.67, 8.3.32: IL and DL go to the line home position, ED does not."""
    screen = shown(b"A\r\nB\r\nC\x1b[2;2H" + data)
    assert "".join(row[0] for row in screen.rows).rstrip() == first_cells
    assert screen.cursor == cursor


def test_renditions_are_kept_for_each_cell():
    """ECMA-48 8.3.117: 1 bold, 4 underlined, 5 blinking, 7 negative, 0 default."""
    screen = shown(b"a\x1b[1mb\x1b[4;7mc\x1b[0;5md\x1b[me")
    assert screen.renditions == {(0, 1): "b", (0, 2): "bur", (0, 3): "k"}


def test_replies():
    """ECMA-48 8.3.35, 8.3.14 and 8.3.24."""
    assert shown(b"\x1b[24;80H\x1b[6n").replies == b"\x1b[24;80R"
    assert shown(b"\x1b[5n").replies == b"\x1b[0n"
    assert shown(b"\x1b[c").replies == b"\x1b[1c"  # any report would do


@pytest.mark.parametrize(
    "data",
    [
        b"\x1b[?5A",
        b"\x1b[!p",
        b"\x1b]0;title\a",
        b"\x1bPq\x1b\\",
        b"\x1b(B",
        b"\x1b[1;2;3;4J",
        b"\x1b[<1m",
        b"\x85",
        b"\x01\x05\x7f",
    ],
)
def test_what_the_profile_does_not_declare_leaves_no_trace(data):
    assert shown(data + b"X").rows[0].rstrip() == "X"


SEQUENCE = st.lists(
    st.sampled_from(
        [
            b"\x1b",
            b"[",
            b"1",
            b"24",
            b";",
            b"?",
            b"H",
            b"J",
            b"m",
            b"L",
            b"P",
            b"@",
            b"999999999999",
            b"!",
            b":",
            b" ",
            b"\x18",
            b"\x1a",
            b"]",
            b"\a",
            b"\\",
            b"A",
            b"\r",
            b"\n",
            b"text",
            b"\t",
            b"c",
            b"n",
        ]
    ),
    max_size=40,
).map(b"".join)


@examples(300)
@given(SEQUENCE, st.integers(0, 200))
def test_broken_sequences_give_the_same_screen_however_they_are_cut(data, cut):
    assert shown(data) == shown(data[:cut], data[cut:])
