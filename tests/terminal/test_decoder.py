"""The decoder: what bytes mean to a profile, before anything is drawn."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.examples import examples
from helpers.profiles import profiles, streams, with_every_action
from helpers.screens import does
from termprobe.profile.load import load
from termprobe.profile.model import Coordinates
from termprobe.terminal.decoded import Decoded, Ignored, Printable
from termprobe.terminal.decoder import LIMIT, Decoder
from termprobe.terminal.tables import LARGEST

SINGLE, ECMA = load("singlebyte-24x80"), load("ecma48-24x80")


def meaning(profile, *pieces):
    """Return the events in short: text, ignored bytes, and (command, row, column, count)."""
    decoder, found = Decoder(profile), []
    for event in (event for piece in pieces for event in decoder.feed(piece)):
        if type(event) is Printable and found and type(found[-1]) is str:
            found[-1] += event.text
        else:
            found.append(
                event.text
                if type(event) is Printable
                else event.codes
                if type(event) is Ignored
                else (str(event.command.name), event.row, event.column, event.count)
            )
    return found


def decoded(name, row=None, column=None, count=1):
    return (name, row, column, count)


@pytest.mark.parametrize(
    "data, expected",
    [
        # 5.4.2: empty parameters, also left out at the end, are the default; leading zeros mean
        # nothing; 0 as default is common practice
        (b"\x1b[3;5H", [decoded("address", 2, 4)]),
        (b"\x1b[;5H", [decoded("address", 0, 4)]),
        (b"\x1b[3H", [decoded("address", 2, 0)]),
        (b"\x1b[003;0005H", [decoded("address", 2, 4)]),
        (b"\x1b[0;0H", [decoded("address", 0, 0)]),
        (b"\x1b[H", [decoded("home")]),
        (b"\x1b[A", [decoded("up")]),
        (b"\x1b[0A", [decoded("up")]),
        (b"\x1b[7A", [decoded("up", count=7)]),
        (b"\x1b[" + b"9" * 50 + b"A", [decoded("up", count=LARGEST)]),
        # more parameters than the function has: the rest is left alone (common practice)
        (b"\x1b[3;5;7H", [decoded("address", 2, 4)]),
        (b"\x1b[2;9J", [decoded("erase-display")]),
        # 8.3.39 and 8.3.117: selective parameters; SGR takes several, in turn
        (b"\x1b[J", [decoded("erase-to-end-of-display")]),
        (b"\x1b[00J", [decoded("erase-to-end-of-display")]),
        (b"\x1b[9J", [b"\x1b[9J"]),
        (b"\x1b[m", [decoded("plain")]),
        (b"\x1b[1;;4m", [decoded("bold"), decoded("plain"), decoded("underline")]),
        (b"\x1b[1;31;7m", [decoded("bold"), b"\x1b[1;31;7m", decoded("reverse")]),
        # 5.4.1: 3C to 3F at the start are private; elsewhere, and after an intermediate byte, they
        # are no sequence of the standard
        (b"\x1b[?5A", [b"\x1b[?5A"]),
        (b"\x1b[>cX", [b"\x1b[>c", "X"]),
        (b"\x1b[1?HX", [b"\x1b[1?H", "X"]),
        (b"\x1b[! 5pX", [b"\x1b[! 5p", "X"]),
        # 5.4.2: sub-strings parted by 3A, which nothing here declares
        (b"\x1b[4:3mX", [b"\x1b[4:3m", "X"]),
        # intermediate bytes make another function of the same final byte
        (b"\x1b[2 JX", [b"\x1b[2 J", "X"]),
        # control characters within a sequence, all common practice
        (b"\x1b[3\r;5H", [decoded("return"), decoded("address", 2, 4)]),
        (b"\x1b\nM", [decoded("line-feed"), decoded("reverse-index")]),
        (b"\x1b[3\x18A", [b"\x1b[3\x18", "A"]),
        (b"\x1b[3\x1aA", [b"\x1b[3\x1a", "A"]),
        (b"\x1b\x18A", [b"\x1b\x18", "A"]),
        (b"\x1b[3\x1b[5A", [b"\x1b[3", decoded("up", count=5)]),
        (b"\x1b\x1bM", [b"\x1b", decoded("reverse-index")]),
        (b"\x1b[3\x7f\x9b4A", [decoded("up", count=34)]),
        # 5.5, and ECMA-35 for intermediate bytes after ESC
        (b"\x1bcX", [b"\x1bc", "X"]),
        (b"\x1b(BX", [b"\x1b(B", "X"]),
        (b"\x1b#(8X", [b"\x1b#(8", "X"]),
        # 5.6 and 8.3.143: control strings end with ST; BEL ends OSC, and CAN, SUB and ESC end all
        # of them by common practice
        (b"\x1bPq\nA\x07B\x1b\\X", [b"\x1bPq\nA\x07B", b"\x1b\\", "X"]),
        (b"\x1b]0;title\x07X", [b"\x1b]0;title", "X"]),
        (b"\x1b_A\x18X", [b"\x1b_A", "X"]),
        (b"\x1b^A\x1b[AX", [b"\x1b^A", decoded("up"), "X"]),
        (b"\x1bXabc\x1b\\X", [b"\x1bXabc", b"\x1b\\", "X"]),
        # single codes
        (b"A\x00\x05\x80\xffB", ["A", b"\0", b"\5", b"\x80", b"\xff", "B"]),
        (b"\x0b\x0c", [decoded("line-feed"), decoded("line-feed")]),
    ],
)
def test_control_functions_of_ecma_48(data, expected):
    """ECMA-48, 5th edition, clauses as named."""
    assert meaning(ECMA, data) == expected
    assert meaning(ECMA, *(bytes([code]) for code in data)) == expected


@pytest.mark.parametrize(
    "data, expected",
    [
        (b"\x1b=$)", [decoded("address", 4, 9)]),
        (b"\x1b=\x0a\x7f", [decoded("address", -22, 95)]),
        (b"AB\x08\x1e", ["AB", decoded("left"), decoded("home")]),
        (b"\xc1\x88", ["A", decoded("left")]),
        (b"\x1bAB", [b"\x1bA", "B"]),
        (b"\x1b\x1b=X", [b"\x1b\x1b", "=X"]),
        (b"\x1b\x1aX", [b"\x1b\x1a", "X"]),
        (b"\x7f\x01", [b"\x7f", b"\x01"]),
    ],
)
def test_single_codes_and_a_lead_in(data, expected):
    """That a lead-in takes one wrong code along is common practice."""
    assert meaning(SINGLE, data) == expected


def test_a_coordinate_of_one_code_may_be_a_control_code_and_one_of_digits_none():
    """Behind a lead-in each code is taken as a number; between digits it does what it says."""
    of_codes = with_every_action({}, Coordinates("binary"), "ecma48")
    of_digits = with_every_action({}, Coordinates("decimal"), "ecma48")
    lead_in = does("address")
    assert meaning(of_codes, lead_in + b"\x03\x0a") == [decoded("address", 3, 10)]
    assert meaning(of_digits, lead_in + b"3\r;10;") == [b"\r", decoded("address", 3, 10)]


@pytest.mark.parametrize("start", [b"\x1b[", b"\x1b]", b"\x1bP", b"\x1b(", b"\x1b "])
def test_what_never_ends_takes_no_room(start):
    decoder = Decoder(ECMA)
    assert decoder.feed(start + b" " * 200_000) == []
    found = decoder.feed(b"\x18" + b"X")
    assert [type(event) for event in found] == [Ignored, Printable] and len(
        found[0].codes
    ) <= LIMIT + 1


@pytest.mark.parametrize("digits", [LIMIT - 5, LIMIT - 4, LIMIT - 3, LIMIT - 2, LIMIT])
def test_a_sequence_at_the_limit_means_the_same_in_one_piece_and_in_many(digits):
    data = b"\x1b[" + b"0" * (digits - 1) + b"3A"
    assert meaning(ECMA, data) == meaning(ECMA, *(bytes([code]) for code in data))
    assert len(meaning(ECMA, data)) == 1


@examples(200)
@given(profiles(), streams(), st.integers(0, 300))
def test_pieces_do_not_matter_and_commands_have_what_their_slots_name(profile, data, cut):
    assert (
        meaning(profile, data)
        == meaning(profile, data[:cut], data[cut:])
        == meaning(profile, *(bytes([code]) for code in data))
    )
    for event in Decoder(profile).feed(data):
        if type(event) is Decoded:
            slots = set(event.command.bytes.slots)
            assert {
                name for name in ("row", "column") if getattr(event, name) is not None
            } == slots - {"count"}
            assert 0 <= event.count <= LARGEST
