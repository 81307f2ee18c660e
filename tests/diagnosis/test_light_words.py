"""The words for the light of the whole screen."""

import pytest

from helpers.scripts import SINGLE
from termprobe.diagnosis.drawing_changes import DrawnBox
from termprobe.diagnosis.light_words import light_noticed
from termprobe.profile.characters import character_set

BOX = SINGLE.display.dots
BOXED = DrawnBox(BOX, character_set(str(BOX.characters)))


def told(words):
    """Return whether it is dark, and what is wrong beside, for each meaning."""
    noticed = light_noticed(words, BOXED)
    return [(bool(one.dots), *sorted(one.beside)) for one in noticed.meant]


@pytest.mark.parametrize(
    "words, meant",
    [
        ("whole screen blank but cursor there", [(True,)]),
        ("nothing shown except a blinking cursor", [(True,)]),
        ("screen dark, not even a cursor", [(True, ("cursor", "missing"))]),
        ("blank screen", [(True, ("cursor", "missing")), (True,)]),
        ("no cursor", [(False, ("cursor", "missing"))]),
        ("the cursor isn't there", [(False, ("cursor", "missing"))]),
        ("cursor vanished", [(False, ("cursor", "missing"))]),
        ("cursor in every cell", [(False, ("cursor", "everywhere"))]),
        ("retrace lines visible", [(False, ("beam", "seen"))]),
    ],
)
def test_what_they_mean(words, meant):
    assert told(words) == meant


def test_words_of_dots_are_none_of_the_light():
    assert light_noticed("left dot column missing", BOXED) is None


@pytest.mark.parametrize(
    "words", ["the cursor is in the wrong place", "cursor does not move", "big cursor"]
)
def test_a_cursor_that_is_to_be_seen_is_not_held_for_missing(words):
    assert light_noticed(words, BOXED) is None
