"""Each cable of the list on a simulated board: which are told apart, and what is said of others."""

import functools

import pytest

from helpers.cabled_line import CabledInUse
from termprobe.board.cable.board_side import BoardSide
from termprobe.board.cable.host_side import HostAdapter
from termprobe.board.cable.link import side_of
from termprobe.line.checks import CHECKS
from termprobe.line.wiring_check import signs_of
from termprobe.line.wiring_signs import explanations, likeliest
from termprobe.link.base import ABILITIES
from termprobe.link.wirings import WIRINGS

ALIKE = [
    {"straight", "straight-data", "nothing"},
    {"crossed-no-dtr", "dtr-busy"},
    {"three-wire", "rts-cts-at-board"},
]
"""Cables between which a terminal shows no difference to the computer."""


@functools.cache
def found(name, **settings):
    line = CabledInUse(wiring=name, **settings).ask()
    return CHECKS["wiring"](line)


@pytest.mark.parametrize("name", WIRINGS)
def test_each_cable_is_among_the_likeliest_and_alone_where_it_can_be_told(name):
    line = CabledInUse(wiring=name).ask()
    best = {one.wiring.name for one in likeliest(explanations(signs_of(line)))}
    assert best == next((group for group in ALIKE if name in group), {name})


@pytest.mark.parametrize(
    "name, is_right",
    [("crossed", True), ("three-wire", True), ("loopback-plug", False), ("receive-only", False)],
)
def test_a_cable_that_does_not_carry_both_ways_fails(name, is_right):
    assert found(name).is_right is is_right


def test_the_likeliest_is_named_first_and_drawn():
    checked = found("crossed")
    assert checked.said.startswith("the cable is most likely crossed: null modem")
    assert "also possible: straight if the board is wired as a modem is" in checked.said
    assert "CTS is on by itself" in checked.said and "a key comes" in checked.said
    assert "            7 RTS ----------- 5 CTS" in checked.drawn


def test_what_cannot_be_told_apart_is_said_with_what_a_meter_tells():
    said = found("dtr-busy").said
    assert "from this side it cannot be told from dtr-busy" in said
    assert "board 5 CTS is joined in crossed-no-dtr alone" in said


def test_a_board_wired_as_a_modem_is_known_on_a_straight_cable():
    board_side = BoardSide(side_of(CabledInUse().board).format, kind="dce")
    line = CabledInUse(wiring="straight-data", side=board_side).ask()
    best = likeliest(explanations(signs_of(line)))
    assert {("straight-data", "dce"), ("three-wire", "dte")} <= {
        (one.wiring.name, one.kind) for one in explanations(signs_of(line))
    }
    assert best[0].wiring.name == "three-wire"


def test_without_control_lines_and_a_person_nothing_is_judged():
    adapter = HostAdapter(abilities=frozenset(ABILITIES) - {"lines"})
    checked = CHECKS["wiring"](CabledInUse(wiring="crossed", adapter=adapter))
    assert checked.is_right is None and "seen: nothing" in checked.said


def test_a_board_that_waits_for_a_line_that_the_cable_leaves_open_sends_nothing():
    board_side = BoardSide(side_of(CabledInUse().board).format, handshake="rts-cts")
    line = CabledInUse(wiring="three-wire", side=board_side, handshake="rts-cts").ask()
    best = likeliest(explanations(signs_of(line), "rts-cts"))
    assert {"three-wire", "rts-cts-at-board"} & {one.wiring.name for one in best}
    assert line.heard["key"] == b"" and not CHECKS["wiring"](line).is_right
