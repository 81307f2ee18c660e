"""What each press sends on a keyboard with a fault."""

import dataclasses

import pytest

from helpers.key_walks import came_of, walked
from termprobe.board.faults.catalogue import keyboard_catalogue
from termprobe.board.keyboard_board import simulate
from termprobe.board.wiring import KEYBOARD_CODE
from termprobe.diagnosis import keyboard_causes
from termprobe.diagnosis.fault_names import parsed
from termprobe.diagnosis.key_hypotheses import hypotheses
from termprobe.diagnosis.key_hypothesis import outcome_of
from termprobe.diagnosis.key_outcomes import Outcome
from termprobe.diagnosis.key_table import table_of
from termprobe.plan.presses import chord_presses, coded_presses
from termprobe.profile.load import load

PROFILES = [load("singlebyte-24x80"), load("ecma48-24x80")]


@pytest.mark.parametrize("profile", PROFILES, ids=lambda profile: profile.id)
def test_presses_of_other_keys_are_rightly_taken_for_healthy(profile):
    """A fault is tried with the presses of keys that it touches; here it is tried with all."""
    presses = coded_presses(profile) + chord_presses(profile)
    sends = {one.name: one.sends for one in hypotheses(profile, presses)}
    of_kinds = {parsed(name).kind: name for name in keyboard_catalogue(profile)}
    for name in of_kinds.values():
        if parsed(name).kind == "key-flaky":
            continue
        keyboard = simulate(profile, (name,))
        for press in presses:
            came = outcome_of(press, came_of(keyboard, press))
            assert sends[name][press.id] == (came,), (name, press.id)


def test_a_fault_of_lines_without_keys_is_tried_with_no_press(monkeypatch):
    """A matrix of 64 by 64 has thousands of them, and may have as many presses."""
    keyboard = PROFILES[0].keyboard
    larger = dataclasses.replace(keyboard, rows=keyboard.rows + 2)
    profile = dataclasses.replace(PROFILES[0], keyboard=larger)
    asked = []
    sent = keyboard_causes._sent
    monkeypatch.setattr(
        keyboard_causes,
        "_sent",
        lambda board, presses, tries: asked.append(len(presses)) or sent(board, presses, tries),
    )
    presses = coded_presses(profile)[:8]
    hypotheses(profile, presses)
    of_all_keys = asked.count(len(presses))
    asked.clear()
    hypotheses(PROFILES[0], presses)
    assert of_all_keys == asked.count(len(presses))


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
