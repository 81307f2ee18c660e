"""Cables and plugs: which pin goes to which, against published pin-outs."""

import pytest

from helpers.transcribed import rows
from termprobe.link.wirings import (
    AT_BOARD,
    AT_COMPUTER,
    DRIVEN_BY,
    PIN_NUMBERS,
    WIRINGS,
    Pin,
    nets,
)


def test_pins_are_where_the_standards_have_them():
    """EIA-232 and EIA/TIA-574, as pin-out tables print them."""
    table = {circuit: (int(db25), int(de9)) for circuit, db25, de9, _ in rows("pins.txt")}
    assert table == PIN_NUMBERS
    driven = {circuit: by for circuit, _, _, by in rows("pins.txt")}
    for kind, circuits in DRIVEN_BY.items():
        assert circuits == tuple(circuit for circuit in table if driven[circuit] == kind.upper())


@pytest.mark.parametrize("name, joints", rows("cables.txt"), ids=lambda text: text.split()[0])
def test_a_cable_is_joined_as_published(name, joints):
    """The tables name DE-9 pins on both sides; `a/b` is a joint on the same side."""
    across, looped = set(), set()
    for joint in joints.split():
        near, far = joint.split("/") if "/" in joint else joint.split("-")
        (looped if "/" in joint else across).add((int(near), int(far)))
    wiring = WIRINGS[name]
    on = {circuit: numbers.de9 for circuit, numbers in PIN_NUMBERS.items()}
    found = {side: set() for side in ("across", AT_COMPUTER, AT_BOARD)}
    for first, second in wiring.joined:
        where = first.side if first.side == second.side else "across"
        found[where].add((on[first.circuit], on[second.circuit]))
    assert found["across"] == across
    if looped:
        assert looped in (found[AT_COMPUTER], found[AT_BOARD])


def test_each_wiring_says_which_pin_goes_to_which():
    assert len(WIRINGS) >= 12
    assert WIRINGS["three-wire"].described() == (
        "computer 3 TXD - board 3 RXD",
        "computer 2 RXD - board 2 TXD",
    )
    assert WIRINGS["loopback-plug"].described()[0] == "computer 3 TXD - computer 2 RXD"
    assert WIRINGS["nothing"].described() == ()
    assert all(wiring.title and wiring.name == name for name, wiring in WIRINGS.items())


def test_pins_that_are_joined_through_others_are_one_group():
    groups = nets(WIRINGS["crossed"])
    assert {Pin(AT_COMPUTER, "dtr"), Pin(AT_BOARD, "dsr"), Pin(AT_BOARD, "dcd")} in groups
    assert len(groups) == 6
