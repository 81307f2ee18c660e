"""Phrases for a part of a screen in few words."""

from termprobe.diagnosis.area_phrases import phrases_of


def test_phrases_are_parted_but_lists_of_numbers_are_not():
    assert phrases_of("rows 1, 3 and 5, left half") == ["row 1 and 3 and 5", "left half"]


def test_words_that_say_nothing_are_left_out():
    assert phrases_of("only the bottom line of the screen") == ["bottom row"]
    assert phrases_of("every other line is wrong") == ["alternate row"]
    assert phrases_of("the screen") == ["everywhere"] and phrases_of(" ") == []
