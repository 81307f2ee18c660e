"""How characters are drawn, as told and as boards draw them."""

import pytest

from helpers.scripts import ECMA, SINGLE
from termprobe.board.board import Board
from termprobe.diagnosis.dot_symptom import DotsNoticed, Light, drawn_character, light_of
from termprobe.diagnosis.error_rates import USUAL_RATES
from termprobe.errors import UsageError

BOX = SINGLE.display.dots
A = ".###./#...#/#...#/#####/#...#/#...#/#...#"


def light(*faults):
    return light_of(BOX, Board(SINGLE, faults).wiring)


def test_a_good_board_has_nothing_wrong():
    assert light() == Light(0)
    assert light("dot-column/missing/0").dots and not light("dot-column/missing/0").beside
    assert light("cursor/dead").beside == {("cursor", "missing")} and not light("cursor/dead").dots


def test_what_was_told_fits_the_board_that_is_wrong_in_the_same_dots():
    told = DotsNoticed((light("dot-column/missing/0"),))
    assert told.fit(light("dot-column/missing/0")).is_as_predicted
    assert not told.fit(light("dot-column/missing/1")).is_as_predicted
    assert told.fit(Light(0)).log_likelihood == -14


def test_one_drawing():
    seen = drawn_character(f"A={A}", SINGLE)
    assert len(seen.rows) == BOX.lines and {len(row) for row in seen.rows} == {BOX.columns}
    marked = drawn_character("A= *** \n1   1\nX...X,@@@@@", SINGLE)
    assert marked.rows[:4] == (".###..", "#...#.", "#...#.", "#####.")
    assert seen.fit([seen.rows] * 2, USUAL_RATES).is_as_predicted
    other = drawn_character(f"A=#{A[1:]}", SINGLE)
    assert not other.fit([seen.rows], USUAL_RATES).is_as_predicted


@pytest.mark.parametrize("told", ["", "A", "A=", "=A", "AB=#", "A=#######", "A=#?#", "\x01=#"])
def test_what_is_no_drawing_is_refused(told):
    with pytest.raises(UsageError, match="--drawn must be a character, =, and its rows .* A="):
        drawn_character(told, SINGLE)


def test_a_profile_without_dots_is_refused():
    with pytest.raises(UsageError, match="has a section dots"):
        drawn_character("A=#", ECMA)
