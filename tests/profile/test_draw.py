"""The drawing of a keyboard made of text."""

import dataclasses

import pytest

from helpers.profiles import keyboard
from termprobe.profile.draw import caps, draw_keyboard
from termprobe.profile.load import load
from termprobe.profile.model import Key


@pytest.mark.parametrize("name", ["singlebyte-24x80", "ecma48-24x80"])
def test_drawing_shows_each_legend_whole_and_fits_80_columns(name):
    board = load(name).keyboard
    lines = draw_keyboard(board)
    assert max(map(len, lines)) <= 78
    for cap in caps(board):
        for line, text in enumerate(cap.face, cap.line):
            assert lines[line].ljust(80)[cap.column : cap.column + cap.width] == text
            assert (
                lines[line].ljust(80)[cap.column - 1]
                == "|"
                == lines[line].ljust(80)[cap.column + cap.width]
            )
        assert sorted(" ".join(cap.face).split()) == sorted(cap.key.legend.split())


def test_drawing_cuts_a_legend_that_does_not_fit():
    key = Key(name="k", legend="ENORMOUS LEGEND", row=3.5, offset=0)
    assert draw_keyboard(keyboard(key)) == ("+---+", "|ENO|", "|LEG|", "+---+")
    assert draw_keyboard(keyboard(dataclasses.replace(key, width=2.0)))[1] == "|ENORMOU|"


def test_a_keyboard_without_keys_is_drawn_as_nothing():
    empty = dataclasses.replace(load("singlebyte-24x80").keyboard, keys=())
    assert draw_keyboard(empty) == ()
