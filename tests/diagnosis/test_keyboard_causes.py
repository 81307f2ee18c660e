"""What each press sends on a keyboard with a fault."""

import dataclasses

import pytest

from helpers.key_walks import came_of, walked
from termprobe.board.faults.catalogue import keyboard_catalogue
from termprobe.board.keyboard_board import simulate
from termprobe.board.wiring import KEYBOARD_CODE
from termprobe.diagnosis.fault_names import parsed
from termprobe.diagnosis.key_hypotheses import hypotheses
from termprobe.diagnosis.key_hypothesis import outcome_of
from termprobe.diagnosis.key_outcomes import Outcome
from termprobe.diagnosis.key_table import table_of
from termprobe.plan.presses import chord_presses, coded_presses
from termprobe.profile.load import load

PROFILES = [load("singlebyte-24x80"), load("ecma48-24x80")]


def with_shift_in_the_matrix(profile):
    """Return `profile` with its SHIFT keys at a crossing that no other key has."""
    keys = tuple(
        dataclasses.replace(key, matrix=(7, 7)) if key.role == "shift" else key
        for key in profile.keyboard.keys
    )
    return dataclasses.replace(profile, keyboard=dataclasses.replace(profile.keyboard, keys=keys))


@pytest.mark.parametrize(
    "profile",
    [*PROFILES, with_shift_in_the_matrix(PROFILES[0])],
    ids=["singlebyte", "ecma48", "shift-in-the-matrix"],
)
def test_presses_that_a_fault_cannot_touch_are_rightly_taken_for_healthy(profile):
    """A fault is tried with the presses that it can touch only; here with all of them."""
    presses = coded_presses(profile) + chord_presses(profile)
    sends = {one.name: one.sends for one in hypotheses(profile, presses)}
    for name in one_or_two_of_each_kind(profile):
        keyboard = simulate(profile, (name,))
        for press in presses:
            came = outcome_of(press, came_of(keyboard, press))
            assert sends[name][press.id] == (came,), (name, press.id)


def one_or_two_of_each_kind(profile):
    """Return the names of the first and the last fault of each kind that shows at once."""
    names = [name for name in keyboard_catalogue(profile) if "flaky" not in name]
    first = {parsed(name)[:2]: name for name in reversed(names)}
    last = {parsed(name)[:2]: name for name in names}
    return {*first.values(), *last.values()}


def test_every_fault_of_a_keyboard_is_supposed_with_what_it_sends():
    profile = PROFILES[0]
    found = {one.name: one for one in table_of(profile).hypotheses}
    listed = keyboard_catalogue(profile)
    assert listed.keys() <= found.keys()
    for name in (
        "key-matrix/row-open/3",
        "key-matrix/shift-stuck",
        f"{KEYBOARD_CODE.where}/stuck/3/0",
    ):
        expected = {press: tuple(came) for press, came in walked(profile, name).items()}
        assert found[name].sends == expected and found[name].title == listed[name].title


def test_a_key_that_makes_contact_at_every_second_press_may_send_or_not():
    found = {one.name: one for one in table_of(PROFILES[0]).hypotheses}
    sends = found["key-matrix/key-flaky/q"].sends
    assert sends["press/q"] == (Outcome.of(b"q"), Outcome.of(b""))
    assert sends["press/w"] == (Outcome.of(b"w"),)
