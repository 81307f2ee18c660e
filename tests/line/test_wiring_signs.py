"""What the signs of a cable allow, worked out by hand from its pins."""

from termprobe.line.wiring_signs import AS_MODEM, LineSigns, driver_of, explanations
from termprobe.link.wirings import WIRINGS, Pin


def test_two_that_drive_one_wire_are_heard_by_nobody():
    straight, there = WIRINGS["straight"], Pin("board", "rxd")
    assert driver_of(straight, "dte", there) is None
    assert driver_of(straight, "dce", Pin("computer", "rxd")) == there
    assert driver_of(WIRINGS["crossed"], "dte", there) == Pin("computer", "txd")


def test_what_is_not_known_rules_nothing_out():
    assert len(explanations(LineSigns())) == 2 * len(WIRINGS)


def test_what_came_rules_out_every_cable_without_a_wire_for_it():
    names = {
        one.wiring.name for one in explanations(LineSigns(key_comes=True)) if one.kind == "dte"
    }
    assert names.isdisjoint({"straight", "nothing", "transmit-only", "loopback-plug"})
    assert {"receive-only", "crossed"} <= names


def test_what_did_not_come_is_supposed_of_the_board():
    found = {
        (one.wiring.name, one.kind): one.supposed
        for one in explanations(LineSigns(key_comes=False, shows=False))
    }
    assert found["nothing", "dte"] == () and found["transmit-only", "dce"] == (AS_MODEM,)
    assert found["crossed", "dte"] == (
        "the board sends nothing",
        "the board shows nothing of what it is sent",
    )
    waiting = explanations(LineSigns(key_comes=False), "rts-cts")
    assert next(one for one in waiting if one.wiring.name == "three-wire").supposed == ()


def test_a_line_that_follows_ours_is_tied_to_it():
    signs = LineSigns(follows={"cts": frozenset(["rts"])}, on={"cts": True}, hears_itself=False)
    names = [one.wiring.name for one in explanations(signs) if one.kind == "dte"]
    assert names == ["three-wire-looped", "rts-cts-at-computer"]
    signs = LineSigns(follows={"cts": frozenset()}, on={"cts": False})
    crossed = [one for one in explanations(signs) if one.wiring.name == "crossed"]
    assert crossed[0].supposed == ("the board leaves its RTS off",)
