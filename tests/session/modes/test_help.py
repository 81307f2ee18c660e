"""The help comes from the keys of the mode beneath."""

from helpers.bench_state import after, console, state
from termprobe.session.draw.console_rows import paged
from termprobe.session.mode_table import MODES

MADE = after(state(), "?")


def test_help_and_footer_come_from_the_keys_of_the_mode():
    shown = console(MADE, 120, 50)
    for keys, text in MODES["look"].help_lines(state()):
        assert keys in shown and text in shown
    assert "practice" not in shown
    assert "practice" in console(after(state(is_practice=True), "?"), 120, 50)


def shown_on(made, *keys):
    """Return the state after keys, each taken as a console of 80 x 24 takes it."""
    for key in keys:
        made = after(paged(made, 80, 24), key)
    return made


def test_help_that_is_longer_than_the_console_has_pages():
    pages = [console(MADE, 80, 24), console(shown_on(MADE, "down"), 80, 24)]
    assert pages[0] != pages[1] and "ctrl-C" not in pages[0] and "ctrl-C" in pages[1]
    assert "down more" in pages[0] and "pageup less" not in pages[0]
    assert "down more" not in pages[1] and "pageup less" in pages[1]


def test_help_neither_wraps_nor_is_left_by_keys_that_move():
    last = shown_on(MADE, "down", "down", "space", "pagedown", "left", "right", "end", "home")
    assert last.mode == "help" and console(last, 80, 24) == console(shown_on(MADE, "down"), 80, 24)
    first = shown_on(last, "up", "up", "pageup")
    assert first.mode == "help" and console(first, 80, 24) == console(MADE, 80, 24)


def test_any_other_key_leads_back():
    assert (
        after(MADE, "x").mode == after(MADE, "enter").mode == after(MADE, "escape").mode == "look"
    )
