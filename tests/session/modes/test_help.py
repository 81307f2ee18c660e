"""The help comes from the keys of the mode beneath."""

from helpers.bench_state import after, console, state
from termprobe.session.mode_table import MODES

MADE = after(state(), "?")


def test_help_and_footer_come_from_the_keys_of_the_mode():
    shown = console(MADE, 120, 50)
    for keys, text in MODES["look"].help_lines():
        assert keys in shown and text in shown
    assert "practice" not in shown
    assert "practice" in console(after(state(is_practice=True), "?"), 120, 50)


def test_help_that_is_longer_than_the_console_has_pages():
    pages = [console(MADE, 80, 24), console(after(MADE, "down"), 80, 24)]
    assert pages[0] != pages[1] and "ctrl-C" not in pages[0] and "ctrl-C" in pages[1]


def test_any_other_key_leads_back():
    assert after(MADE, "x").mode == after(MADE, "enter").mode == "look"
