"""The character generator and what follows it, on a good board and with each kind of fault."""

import pytest

from helpers.boards import PROFILE, faulty
from termprobe.board import generator
from termprobe.board.board import Board
from termprobe.board.generator import good_drawings
from termprobe.profile.characters import art_of, character_set
from termprobe.profile.load import load
from termprobe.terminal import dots

BOX = PROFILE.display.dots


def drawn(fault, text="F"):
    """Return the rows of dots of each character of `text` that a board with `fault` misdraws."""
    board = faulty(fault)
    board.receive(text.encode())
    return {what: art.split("/") for what, art in board.screen().misdrawn}


def test_a_good_board_draws_each_character_as_its_set_has_it_in_the_corner_of_its_box():
    own = character_set("5x7")
    for code, glyph in own.glyphs.items():
        rows = art_of(good_drawings(BOX)[code], BOX.columns)
        assert rows[:7] == tuple(row + "." for row in art_of(glyph, 5))
        assert rows[7:] == ("......",) * 3


def test_a_good_board_has_nothing_misdrawn_and_one_without_dots_tells_nothing():
    board = Board(PROFILE)
    board.receive(b"\x1aABC")
    assert board.screen().misdrawn == ()
    ecma = load("ecma48-24x80")
    assert ecma.display.dots is None


@pytest.mark.parametrize(
    "fault, rows",
    [
        ("dot-column/missing/0", [".####.", "......", "......", ".###..", "......"]),
        ("dot-column/stuck/4/1", ["#####.", "#...#.", "#...#.", "#####.", "#...#."]),
        ("dot-column/swapped/0-4", ["#####.", "....#.", "....#.", ".####.", "....#."]),
        ("dot-column/bridged/0-4/low", ["#####.", "......", "......", ".###..", "......"]),
        ("row-scan/stuck/2/0", ["#####.", "#.....", "#.....", "####..", "#####."]),
        ("row-scan/stuck/0/1", ["#.....", "#.....", "####..", "####..", "#....."]),
        ("shift-register/stuck/2/1", ["######", "#.####", "#.####", "######", "#.####"]),
        ("shift-register/stuck/2/0", ["##....", "#.....", "#.....", "##....", "#....."]),
        ("dots/half", ["#####.", "......", "#.....", "......", "#....."]),
        ("blanking/stuck", ["......"] * 5),
        ("glyph-cell/stuck/70-1-2/1", ["#####.", "#.#...", "#.....", "####..", "#....."]),
        ("glyph-cell/stuck/70-0-4/0", ["####..", "#.....", "#.....", "####..", "#....."]),
    ],
)
def test_each_fault_draws_its_characters_wrong_and_leaves_the_codes_right(fault, rows):
    found = drawn(fault)
    assert found["F"][:5] == rows
    board = faulty(fault)
    board.receive(b"FIRST")
    assert board.screen().rows[0].rstrip() == "FIRST"


def test_a_column_that_is_always_lit_is_lit_below_the_drawing_and_on_a_blank_screen():
    board = faulty("dot-column/stuck/0/1")
    ((what, art),) = board.screen().misdrawn
    assert what == " " and art == "/".join(["#....."] * 10)


def test_a_single_dot_is_wrong_in_its_own_character_alone():
    assert list(drawn("glyph-cell/stuck/65-3-2/1", "ABC")) == ["A"]
    assert not drawn("glyph-cell/stuck/65-3-2/1", "BCD")


@pytest.mark.parametrize(
    "fault, told",
    [
        ("cursor/dead", (dots.CURSOR, dots.MISSING)),
        ("cursor/everywhere", (dots.CURSOR, "everywhere")),
        ("blanking/dead", (dots.BEAM, "seen")),
        ("blanking/stuck", (dots.CURSOR, dots.MISSING)),
    ],
)
def test_what_is_beside_the_characters_is_told_of_a_blank_screen_too(fault, told):
    assert told in faulty(fault).screen().misdrawn
    assert dots.dots_in_words([told])


def test_board_and_reference_call_what_is_beside_the_characters_alike():
    assert (generator.CURSOR, generator.BEAM) == (dots.CURSOR, dots.BEAM)
    assert generator.MISSING == dots.MISSING


def test_two_faults_are_drawn_together():
    board = Board(PROFILE, ["dot-column/missing/0", "shift-register/stuck/4/1"])
    board.receive(b"\x1aF")
    art = dict(board.screen().misdrawn)["F"].split("/")
    assert art[0] == ".#####" and art[1] == "....##"


def test_in_a_variant_what_is_wrong_is_told_of_the_characters_that_it_shows():
    club = load("club-16x64")
    board = Board(club, ["dot-column/missing/0"])
    board.set_option("character-set", "german")
    board.receive(b"\x1f[")
    own = character_set(club.display.dots.characters)
    drawn = art_of(generator.good_drawing(club.display.dots, "\u00c4"), club.display.dots.columns)
    assert drawn[3][:7] == art_of(own.national[0xC4], 7)[3] == ".#...#."
    found = dict(board.screen().misdrawn)
    assert "[" not in found
    assert found["\u00c4"].split("/") == ["." + row[1:] for row in drawn]


def test_a_dot_of_the_ascii_drawing_is_no_dot_of_what_the_variant_shows_in_its_place():
    club = load("club-16x64")
    board = Board(club, ["glyph-cell/stuck/91-0-0/1"])
    board.receive(b"\x1f[")
    assert [what for what, _ in board.screen().misdrawn] == ["["]
    board.set_option("character-set", "german")
    assert board.screen().misdrawn == ()
