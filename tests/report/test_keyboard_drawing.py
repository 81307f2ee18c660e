"""The keyboard as drawn: a mark on each key, a place for each key, and recorded drawings of both keyboards."""

import pathlib

import pytest
from hypothesis import given
from hypothesis import strategies as st
from helpers.paths import RECORDED

from termprobe.plan.presses import coded_presses
from termprobe.profile.draw import draw
from termprobe.profile.load import load
from termprobe.report.keyboard_drawing import (
    ASKED,
    NONE,
    MARKS,
    drawing,
    legend,
    marks,
    place,
    states,
)
from termprobe.verdict.model import StepVerdict

PROFILES = {name: load(name) for name in ("singlebyte-24x80", "ecma48-24x80")}
WORDS = ("pass", "fail", "unanswered", "skipped")


def verdict(press, word, reason=""):
    return StepVerdict(press.id, "keyboard", press.title, word, reason)


def some_way_through(profile):
    """Return the drawing in the midst of a walk: every key in turn right, wrong, dead, partly pressed, left out, untested."""
    presses = coded_presses(profile)
    words = [
        ("pass", ""),
        ("fail", '"x" came'),
        ("fail", "nothing came, not it"),
        ("unanswered", ""),
        ("skipped", "no keycap"),
        None,
    ]
    keys = list(dict.fromkeys(press.key for press in presses))
    verdicts = {}
    for press in presses:
        found = words[keys.index(press.key) % len(words)]
        if found == ("unanswered", "") and not press.modifiers:
            found = "pass", ""
        verdicts[press.id] = verdict(press, *(found or ("unanswered", "")))
    return drawing(profile.keyboard, states(profile.keyboard, presses, verdicts, asked=presses[-1]))


@pytest.mark.parametrize("name", PROFILES)
def test_a_walk_under_way_is_drawn_as_recorded(name):
    recorded = RECORDED / f"keyboard-{name}.txt"
    assert "\n".join(some_way_through(PROFILES[name])) + "\n" == recorded.read_text(
        encoding="utf-8"
    )


@pytest.mark.parametrize("name", PROFILES)
@given(data=st.data())
def test_signs_stand_on_their_own_keys_and_change_nothing_else(name, data):
    keyboard = PROFILES[name].keyboard
    given_states = {
        str(key.name): data.draw(st.sampled_from(sorted(MARKS))) for key in keyboard.keys
    }
    plain, signed = draw(keyboard), drawing(keyboard, given_states)[:-1]
    found = marks(keyboard, given_states)
    assert (
        len({(mark.line, mark.column) for mark in found})
        == len(found)
        == sum(state != NONE for state in given_states.values())
    )
    cells = [list(line.ljust(len(plain[0]) + 80)) for line in signed]
    for mark in found:
        assert cells[mark.line][mark.column] == mark.character
        cells[mark.line][mark.column] = plain[mark.line].ljust(200)[mark.column]
    assert ["".join(row).rstrip() for row in cells] == list(plain)


@pytest.mark.parametrize("profile", PROFILES.values(), ids=PROFILES)
def test_the_drawing_fits_an_80_column_console_and_every_sign_has_its_word(profile):
    lines = some_way_through(profile)
    assert max(map(len, lines)) <= 78 and len(lines) <= 24
    assert lines[-1] == legend() and all(
        f"{mark} " in legend() for mark in MARKS.values() if mark.strip()
    )


@pytest.mark.parametrize("profile", PROFILES.values(), ids=PROFILES)
def test_every_key_has_a_place_of_its_own(profile):
    places = [place(profile.keyboard, key) for key in profile.keyboard.keys]
    assert len(set(places)) == len(places)


@given(st.lists(st.sampled_from(WORDS), min_size=3, max_size=3))
def test_the_worst_press_of_a_key_speaks(words):
    profile = PROFILES["singlebyte-24x80"]
    presses = [press for press in coded_presses(profile) if press.key == "q"]
    assert len(presses) == 3
    verdicts = {press.id: verdict(press, word, '"x" came') for press, word in zip(presses, words)}
    found = states(profile.keyboard, presses, verdicts)["q"]
    expected = (
        "wrong"
        if "fail" in words
        else "untested"
        if set(words) == {"unanswered"}
        else "partly"
        if "unanswered" in words
        else "skipped"
        if "skipped" in words
        else "right"
    )
    assert found == expected
    assert states(profile.keyboard, presses, verdicts, asked=presses[0])["q"] == ASKED
