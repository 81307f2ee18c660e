"""The presses that prove a keyboard: which, in which order, how they are asked for, and by whom."""

import dataclasses

import pytest

from helpers.scripts import ECMA, SINGLE
from termprobe.plan.presses import (
    chord_presses,
    coded_presses,
    codes_of,
    listed_presses,
    location,
    request,
    spoken,
)

BOTH = pytest.mark.parametrize("profile", [SINGLE, ECMA], ids=lambda profile: profile.id)
OF_SINGLE = {press.id: press for press in listed_presses(SINGLE)}
OF_ECMA = {press.id: press for press in listed_presses(ECMA)}


@BOTH
def test_every_key_that_sends_is_listed_once_in_each_state_and_by_the_order_of_the_profile(profile):
    listed, keys = listed_presses(profile), profile.keyboard.keys
    assert len({press.id for press in listed}) == len(listed)
    order = [str(key.name) for key in keys]
    found = [order.index(press.key) for press in listed]
    assert found == sorted(found)
    sending = {str(key.name) for key in keys if key.role in ("code", "break")}
    assert {press.key for press in listed} == sending


def test_ids_titles_and_codes():
    ids = ("press/a", "press/a+shift", "press/a+control")
    assert [OF_SINGLE[press].code for press in ids] == [b"a", b"A", b"\x01"]
    assert OF_SINGLE["press/1+shift"].title == '"1 !" with SHIFT sends "!"'
    assert OF_ECMA["press/up"].code == b"\x1b[A"  # ECMA-48 8.3.22, CUU
    both = OF_ECMA["press/minus+control+shift"]
    # - is _ with SHIFT, so US: RFC 20, section 2
    assert (both.modifiers, both.code) == (("control", "shift"), b"\x1f")
    assert both.title == '"- _" with CONTROL and SHIFT sends US'


def test_a_break_key_is_expected_to_send_a_break_and_a_local_key_is_not_listed():
    key = OF_SINGLE["press/break"]
    assert (key.code, key.is_break, key.sends) == (b"", True, "a break")
    assert not any(press.startswith("press/local") for press in OF_SINGLE)


@BOTH
def test_what_sends_a_code_can_be_reported_by_any_link(profile):
    listed, coded = listed_presses(profile), coded_presses(profile)
    assert set(listed) - set(coded) == {press for press in listed if press.is_break}
    assert all(press.code for press in coded)


def test_without_a_keyboard_there_is_nothing_to_press():
    without = dataclasses.replace(SINGLE, keyboard=None)
    assert listed_presses(without) == coded_presses(without) == chord_presses(without) == ()


def test_only_keys_of_a_keyboard_that_repeats_by_itself_may_repeat():
    automatic = dataclasses.replace(SINGLE.keyboard, repeat="automatic")
    by_hand = dataclasses.replace(SINGLE.keyboard, repeat="none")
    of_automatic = listed_presses(dataclasses.replace(SINGLE, keyboard=automatic))
    of_hand = listed_presses(dataclasses.replace(SINGLE, keyboard=by_hand))
    repeats = {str(key.name): key.repeats for key in SINGLE.keyboard.keys}
    assert not any(press.may_repeat for press in of_hand)
    coded = [press for press in of_automatic if not press.is_break]
    assert [press.may_repeat for press in coded] == [repeats[press.key] for press in coded]


def test_the_codes_of_presses_name_all_that_send_them():
    codes = dict(codes_of(OF_SINGLE.values()))
    assert codes[b"A"] == ('key "A" with SHIFT',)
    assert codes[b"\n"] == ('key "J" with CONTROL', 'key "LINE FEED"', 'key "DOWN"')
    assert b"" not in codes
    assert spoken(OF_SINGLE["press/1+shift"]) == 'key "1 !" with SHIFT'


def test_a_chord_is_three_keys_of_which_two_are_held():
    chord = next(press for press in chord_presses(ECMA) if press.id == "chord/back-space")
    assert (chord.key, chord.held, chord.code) == ("back-space", ("1", "equals"), b"1=\b")
    assert chord.asked == 'key "1 !" and key "= +" held, then key "BACK SPACE"'
    assert chord.sends == '"1=" BS and no "`"'


@BOTH
def test_every_key_has_a_location_of_its_own(profile):
    keyboard = profile.keyboard
    locations = [location(keyboard, str(key.name)) for key in keyboard.keys]
    assert len(set(locations)) == len(locations) and all(locations)
    assert location(keyboard, "unheard-of") == ""


def test_a_key_without_its_keycap_is_found_by_its_location():
    expected = "row 2 of 5, key 2 from the left, matrix row 3 column 0"
    assert location(SINGLE.keyboard, "q") == expected


def test_a_press_is_asked_for_by_keycap_and_location():
    at_1 = location(SINGLE.keyboard, "1")
    assert request(SINGLE.keyboard, OF_SINGLE["press/1+shift"]) == f'"1 !" with SHIFT ({at_1})'


def test_a_chord_is_asked_for_with_the_location_of_each_of_its_keys():
    chord = next(press for press in chord_presses(ECMA) if press.id == "chord/back-space")
    at = {name: location(ECMA.keyboard, name) for name in ("1", "equals", "back-space")}
    assert request(ECMA.keyboard, chord) == (
        f'and hold "1 !" ({at["1"]}) and "= +" ({at["equals"]}), '
        f'then "BACK SPACE" ({at["back-space"]})'
    )
