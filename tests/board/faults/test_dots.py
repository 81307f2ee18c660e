"""The faults of dots: their names, titles with chip and pin, and what they leave as it is."""

import dataclasses

import pytest

from helpers.boards import PROFILE
from termprobe.board.board import Board
from termprobe.board.faults import dots
from termprobe.board.faults.catalogue import catalogue, fault
from termprobe.board.generator import has_wrong_dots, misdrawn_codes
from termprobe.board.wiring import wire
from termprobe.diagnosis.playing import has_part_in_display
from termprobe.errors import UsageError
from termprobe.profile.load import load

CLUB = load("club-16x64")
FAULTS = {one.name: one for one in dots.faults(PROFILE)}


def test_there_are_so_many_of_each_block():
    counted = dict.fromkeys(dots.BLOCKS, 0)
    for one in FAULTS.values():
        counted[one.block] += 1
    assert counted == {
        "row-scan": 15,
        "dot-column": 40,
        "shift-register": 12,
        "glyph-cell": 0,
        "dots": 1,
        "blanking": 2,
        "cursor": 2,
    }
    assert FAULTS.keys() <= catalogue(PROFILE).keys()


@pytest.mark.parametrize("name", [*list(FAULTS)[::5], "glyph-cell/stuck/65-3-2/1"])
def test_each_changes_dots_and_no_code(name):
    good, wiring = wire(PROFILE), wire(PROFILE)
    fault(PROFILE, name).apply(wiring)
    assert has_wrong_dots(wiring) and not has_part_in_display(wiring, good)


def test_a_title_names_chip_and_pin():
    titles = {one.name: one.title for one in dots.faults(CLUB)}
    assert titles["dot-column/missing/3"] == (
        "dot line 3 (U51 pin 13) of the character generator is dead: that column of dots is never "
        "lit"
    )
    assert "row lines 0 (U60 pin 14) and 2 (U60 pin 12)" in titles["row-scan/swapped/0-2"]


def test_a_profile_that_does_not_tell_of_dots_has_none_of_these_faults():
    blind = dataclasses.replace(PROFILE, display=dataclasses.replace(PROFILE.display, dots=None))
    assert not list(dots.faults(blind))
    with pytest.raises(UsageError, match="a fault of dots needs a profile"):
        fault(blind, "dot-column/missing/3")
    board = Board(blind)
    board.receive(b"\x1aA")
    assert board.screen().misdrawn is None


@pytest.mark.parametrize(
    "name",
    [
        "glyph-cell/stuck/31-0-0/1",
        "glyph-cell/stuck/65-7-0/1",
        "glyph-cell/stuck/65-0-5/1",
        "dot-column/missing/5",
        "row-scan/stuck/3/0",
    ],
)
def test_what_there_is_not_is_refused_with_what_there_is(name):
    with pytest.raises(UsageError, match=f'row 0 to 6, column 0 to 4, level 0 or 1, not "{name}"'):
        fault(PROFILE, name)


def test_of_a_misspelt_one_the_nearest_is_named():
    with pytest.raises(UsageError, match='nearest is "dot-column/missing/3"'):
        fault(PROFILE, "dot-column/mising/3")


def test_a_dot_that_is_stuck_as_it_should_be_changes_nothing():
    wiring = wire(PROFILE)
    fault(PROFILE, "glyph-cell/stuck/70-0-0/1").apply(wiring)
    assert not misdrawn_codes(PROFILE.display.dots, wiring)
    fault(PROFILE, "glyph-cell/stuck/70-0-0/0").apply(wiring)
    assert list(misdrawn_codes(PROFILE.display.dots, wiring)) == [70]
