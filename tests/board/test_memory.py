"""What the display memory holds at power-up, and what the character generator draws."""

import dataclasses

from helpers.boards import PROFILE, changed
from termprobe.board.board import Board


def test_power_up_is_random_but_the_same_for_the_same_seed():
    screens = [Board(PROFILE, seed=seed).screen() for seed in (1, 1, 2)]
    assert screens[0] == screens[1] != screens[2]
    assert len(set("".join(screens[0].rows))) > 100
    row, column = screens[0].cursor
    assert 0 <= row < 24 and 0 <= column < 80


def test_power_up_blank_where_the_profile_says_so():
    screen = Board(changed(PROFILE, display={"power_up": "blank"})).screen()
    assert (set("".join(screen.rows)), screen.cursor) == ({" "}, (0, 0))


def test_codes_without_a_character_are_drawn_as_unicode_control_pictures():
    """Unicode 15, block Control Pictures: SYMBOL FOR NULL is U+2400, SYMBOL FOR DELETE U+2421."""
    profile = changed(PROFILE, first=0x00, last=0x7F)
    profile = dataclasses.replace(
        profile, commands=tuple(c for c in profile.commands if c.name in ("clear", "bell"))
    )
    board = Board(profile)
    board.receive(b"\x1a\x00\x0aA\x7f")
    assert board.screen().rows[0].startswith("\u2400\u240aA\u2421 ")
