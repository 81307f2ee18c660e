"""The healthy simulated board: it does what the reference says.

The two share no behaviour code.
"""

import dataclasses
import random
import subprocess
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.boards import PROFILE, changed, more, sent
from helpers.examples import examples
from termprobe.board.board import Board
from termprobe.profile.model import Coordinates
from termprobe.terminal.reference import Reference

MORE = (
    more("next-line", (b"\x1f",), "next-line", "scroll"),
    more("tab", (b"\x09",), "tab", "next-row"),
    more("erase-display", (b"\x1bJ",), "erase-display"),
    more("to-end", (b"\x1bY",), "erase-to-end-of-display"),
    more("to-start", (b"\x1bZ",), "erase-to-start-of-display"),
    more("row-to-end", (b"\x1bT",), "erase-to-end-of-line"),
    more("row-to-start", (b"\x1bS",), "erase-to-start-of-line"),
    more("row", (b"\x1bR",), "erase-line"),
    more("where", (b"\x1b?",), "reply", reply=("row", "column", b"\r")),
    more("column-first", (b"\x1b&", "column", b",", "row", b"."), "address", "clamp"),
    more("row-alone", (b"\x1br", "row"), "address-row", "clamp"),
    more("column-alone", (b"\x1bc", "column"), "address-column", "keep"),
)

SMALL = {"rows": 5, "columns": 7, "tab_stops": 3}
TURNING = {"left": "wrap", "right": "wrap", "up": "wrap", "down": "wrap"}
NEXT = {
    "left": "previous-row",
    "right": "next-row",
    "up": "scroll",
    "down": "stay",
    "address": "clamp",
}

VARIANTS = {
    "as shipped": PROFILE,
    "small": changed(PROFILE, commands=MORE, display=SMALL),
    "pending": changed(PROFILE, commands=MORE, display=SMALL, last_column="pending"),
    "overwriting": changed(PROFILE, commands=MORE, display=SMALL, last_column="overwrite"),
    "turning": changed(PROFILE, TURNING, MORE, SMALL, last_row="wrap"),
    "next row": changed(PROFILE, NEXT, MORE, SMALL, last_row="stay"),
    "pending, next row": changed(PROFILE, NEXT, MORE, SMALL, last_column="pending"),
    "binary coordinates": changed(
        PROFILE, commands=MORE, display=SMALL, coordinates=Coordinates("binary", first=1)
    ),
    "bcd coordinates": changed(
        PROFILE, commands=MORE, display={"rows": 12, "columns": 40}, coordinates=Coordinates("bcd")
    ),
    "odd rows": changed(PROFILE, display={"rows": 25, "columns": 128}),
    "eight bits": dataclasses.replace(PROFILE, link=dataclasses.replace(PROFILE.link, data_bits=8)),
}

PIECES = st.one_of(
    st.binary(max_size=12),
    st.text(st.characters(min_codepoint=0x20, max_codepoint=0x7E), max_size=90).map(str.encode),
    st.sampled_from(
        [
            b"\x07",
            b"\x08",
            b"\x0a",
            b"\x0b",
            b"\x0c",
            b"\x0d",
            b"\x1a",
            b"\x1e",
            b"\x0a" * 5,
            b"\x1b",
            b"\x1b=",
        ]
    ),
    st.sampled_from(
        [b"\x09", b"\x1f", b"\x1bJ", b"\x1bY", b"\x1bZ", b"\x1bT", b"\x1bS", b"\x1bR", b"\x1b?"]
    ),
    st.tuples(st.sampled_from(b"=&rc"), st.binary(min_size=2, max_size=2)).map(
        lambda parts: bytes([0x1B, parts[0]]) + parts[1]
    ),
    st.tuples(st.integers(0x1F, 0x39), st.integers(0x1F, 0x71)).map(
        lambda coordinates: b"\x1b=" + bytes(coordinates)
    ),
)

STREAMS = st.lists(PIECES, max_size=40)


def seen(board):
    screen = board.screen()
    return screen.rows, screen.cursor, screen.bells


def expected(reference):
    screen = reference.screen()
    return screen.rows, screen.cursor, screen.bells


@pytest.mark.parametrize("name", VARIANTS)
@examples(40)
@given(stream=STREAMS)
def test_board_and_reference_agree_on_any_bytes_in_any_pieces(name, stream):
    board, reference = Board(VARIANTS[name]), Reference(VARIANTS[name])
    board.receive(b"\x1a")
    reference.feed(b"\x1a" + b"".join(stream))
    for piece in stream:
        board.receive(piece)
    assert seen(board) == expected(reference)
    kept_bits = (1 << VARIANTS[name].link.data_bits) - 1
    assert sent(board) == bytes(code & kept_bits for code in reference.screen().replies)


@examples(40)
@given(stream=STREAMS)
def test_pieces_do_not_matter(stream):
    data = b"\x1a" + b"".join(stream)
    whole, single = Board(PROFILE), Board(PROFILE)
    whole.receive(data)
    for code in data:
        single.receive(bytes([code]))
    assert seen(whole) == seen(single)


@pytest.mark.parametrize("name", VARIANTS)
def test_board_and_reference_agree_on_long_streams_dense_with_edges(name):
    profile, chance = VARIANTS[name], random.Random(name)
    columns, offset = profile.display.columns, profile.coordinates.offset
    atoms = [bytes(command.bytes[0]) for command in profile.commands if len(command.bytes) == 1]
    atoms += [b"x", b"yz", b"k" * columns, b"m" * (columns - 1), b"\x07", b"\n", b"\x0b"] * 3
    board, reference = Board(profile), Reference(profile)
    for data in [b"\x1a"] + chance.choices(atoms, k=1500):
        if chance.random() < 0.3:
            row = offset + chance.randrange(profile.display.rows)
            data += b"\x1b=" + bytes([row, offset + columns - chance.randrange(3)])
        board.receive(data)
        reference.feed(data)
        if chance.random() < 0.2:
            assert seen(board) == expected(reference)


def test_the_board_knows_nothing_of_the_reference():
    code = (
        "import sys, termprobe.board.board, termprobe.board.link, termprobe.board.serve;"
        "from termprobe.board.faults.catalogue import families; families();"
        "print([name for name in sys.modules if name.startswith('termprobe.terminal')"
        " or name in ('pyte', 'serial')])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout == "[]\n"


def test_switching_off_and_on_forgets_all_but_the_switches():
    board = Board(PROFILE)
    board.set_option("duplex", "half")
    before = board.screen()
    board.receive(b"\x1aHello\x07\x1b=")
    board.type("x")
    board.power_up()
    assert board.screen() == before
    assert sent(board) == b""
    board.receive(b"\x1a")
    board.type("y")
    assert board.screen().rows[0].strip() == "y"


@pytest.mark.parametrize(
    "duplex, line, screen, on_line",
    [
        ("full", "on-line", "", b"Hi"),
        ("half", "on-line", "Hi", b"Hi"),
        ("full", "local", "Hi", b""),
        ("half", "local", "Hi", b""),
    ],
)
def test_where_keys_go(duplex, line, screen, on_line):
    board = Board(PROFILE)
    board.receive(b"\x1a")
    board.set_option("duplex", duplex)
    board.set_option("line", line)
    board.type("Hi")
    assert (board.screen().rows[0].strip(), sent(board)) == (screen, on_line)


def test_in_local_mode_the_line_does_not_reach_the_screen():
    board = Board(PROFILE)
    board.receive(b"\x1a")
    board.set_option("line", "local")
    board.receive(b"lost")
    assert board.screen().rows[0].strip() == ""


@pytest.mark.parametrize("fault", ["margin/no-wrap", "cell/stuck/3-3-1/0", "scroll/dead"])
@given(first=PIECES, then=PIECES, later=PIECES)
@examples(40)
def test_a_board_put_back_into_a_state_goes_on_as_it_did(fault, first, then, later):
    board = Board(PROFILE, [fault])
    board.receive(first)
    state = board.state
    board.receive(then)
    shown = board.screen(), board.drawn(), board.state
    board.receive(later)
    board.state = state
    board.receive(then)
    assert (board.screen(), board.drawn(), board.state) == shown


@given(PIECES)
def test_switched_off_and_on_a_board_is_as_new(data):
    board = Board(PROFILE)
    board.receive(data)
    board.power_up()
    assert (board.state, board.screen()) == (Board(PROFILE).state, Board(PROFILE).screen())


def test_what_is_drawn_and_what_the_ram_gives_are_codes_in_rows():
    board = Board(PROFILE, ["glyph-address/stuck/0/1"])
    board.receive(b"\x1aTOP" + b"\n" * 24 + b"\rB")
    assert board.drawn()[23 * 80 : 23 * 80 + 2] == b"C!"
    assert board.drawn().decode() == "".join(board.screen().rows)
    assert board.read().startswith(b"B  "), "the display begins at its second physical row"
