"""What an answer says nothing of."""

import pytest

from helpers.bench import screen_of
from termprobe.journal.records import DUMP, EYES, Answer
from termprobe.terminal.screen import Screen
from termprobe.verdict.unseen import not_seen

ROWS = ("A", "", "")


@pytest.mark.parametrize(
    "fields, missing",
    [
        ({}, ("cursor", "bell")),
        ({"cursor": (0, 1)}, ("bell",)),
        ({"cursor": (0, 1), "bells": 0}, ()),
    ],
)
def test_a_dump_sees_what_it_tells(fields, missing):
    answer = Answer(seen=ROWS, strength=DUMP, **fields)
    assert not_seen(screen_of("A", cursor=(0, 1)), answer) == missing


def test_dots_are_missed_where_they_are_asked_for_and_not_told():
    screen, dumped = screen_of("A"), Answer(seen=ROWS, bells=0, strength=DUMP)
    assert "dots" in not_seen(screen, dumped, asks_dots=True)
    assert "dots" not in not_seen(screen, dumped)
    told = Answer(seen=ROWS, bells=0, misdrawn=(), strength=DUMP)
    assert "dots" not in not_seen(screen, told, asks_dots=True)


def test_renditions_are_seen_by_eyes_alone():
    bold = Screen(ROWS, None, renditions={(0, 0): "b"})
    assert not_seen(bold, Answer(seen=ROWS, bells=0, strength=DUMP)) == ("rendition",)
    assert not_seen(bold, Answer(seen=ROWS, strength=EYES)) == ()
    assert not_seen(bold, Answer(strength=DUMP)) == (), "its word alone was given"
