"""The announcement on the board's own screen."""

import dataclasses

from helpers.bench_plan import PROFILE
from termprobe.session.announcement import announcement
from termprobe.terminal.reference import Reference


def shown(profile):
    reference = Reference(profile)
    for group in announcement(profile):
        reference.feed(group.data)
    return [row.rstrip() for row in reference.screen().rows]


def test_it_stands_alone_in_the_top_row():
    first, *others = shown(PROFILE)
    assert first.startswith("ANSWER ON THIS KEYBOARD: Y AS EXPECTED") and not any(others)


def test_a_narrow_screen_shows_as_much_as_a_row_holds():
    narrow = dataclasses.replace(PROFILE, display=dataclasses.replace(PROFILE.display, columns=24))
    first, *others = shown(narrow)
    assert first == "ANSWER ON THIS KEYBOARD:" and not any(others)
