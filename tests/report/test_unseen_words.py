"""Looks that passed for what could be seen."""

from helpers.reports import step
from termprobe.report.unseen_words import characters_only, passed_by_characters
from termprobe.report.words import evidence


def test_looks_are_counted_by_what_was_not_seen_of_them():
    dumped = step("pass", "a", not_seen=("cursor", "bell"))
    bold = step("pass", "b", not_seen=("cursor", "bell", "rendition"))
    steps = [dumped, dumped, bold, step("pass", "c"), step("fail", "d", not_seen=("cursor",))]
    assert list(passed_by_characters(steps)) == [
        "2 looks passed by characters only; not seen: cursor, bell",
        "1 look passed by characters only; not seen: cursor, bell, rendition",
    ]


def test_each_look_says_it():
    assert evidence(step("pass", not_seen=("bell",))) == (characters_only(("bell",)),)
