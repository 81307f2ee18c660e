"""A try shows what is lost after a command, on every shipped board."""

import pytest

from termprobe import yamlfile
from termprobe.plan.settle_tries import TEXT, settle_try, slow_commands
from termprobe.profile.load import load

TRIED = [
    (profile_id, name)
    for profile_id in yamlfile.shipped_ids("profiles")
    for name in slow_commands(load(profile_id))
]


@pytest.mark.parametrize("profile_id, name", TRIED)
def test_text_follows_the_command_at_once_and_all_else_has_ample_time(profile_id, name):
    look = settle_try(load(profile_id), name, 0.003, 0.2)
    *before, tried, text = look.groups
    assert tried.settle_s == 0.003 and text.data == TEXT.encode()
    assert {group.settle_s for group in (*before, text)} == {0.2}
    assert TEXT in "".join(look.expected.rows) and "3.0 ms" in look.title


def test_what_scrolls_is_tried_where_it_scrolls():
    look = settle_try(load("club-16x64"), "down", 0.0, 0.2)
    full = [row for row in look.expected.rows if row.startswith("*" * 60)]
    assert len(full) == 14, "of fifteen full rows one has left the screen at its top"
    assert TEXT in look.expected.rows[-1]


def test_an_erasure_has_its_whole_row_to_do():
    look = settle_try(load("singlebyte-24x80"), "erase-to-end-of-line", 0.0, 0.2)
    assert look.expected.rows[0].rstrip() == TEXT and look.expected.rows[1].startswith("*" * 79)
