"""What the shipped profiles say that no other figure follows from: the line, edges and margins.

Each is as the source beside it in the profile has it; here it is written a second time, by hand.
"""

import pytest

from termprobe.profile.load import load

LINES = {
    "singlebyte-24x80": (9600, 7, "even", 1, "none"),
    "ecma48-24x80": (9600, 8, "none", 1, "xon-xoff"),
}
"""Speed, data bits, parity, stop bits and handshake."""
SPEEDS = {
    "singlebyte-24x80": (110, 300, 600, 1200, 2400, 4800, 9600, 19200),
    "ecma48-24x80": (300, 600, 1200, 2400, 4800, 9600, 19200, 38400),
}
EDGES = {
    "singlebyte-24x80": {
        "left": "stay",
        "down": "scroll",
        "up": "stay",
        "right": "stay",
        "address": "keep",
    },
    "ecma48-24x80": {
        "backspace": "stay",
        "tab": "stay",
        "line-feed": "scroll",
        "up": "stay",
        "down": "stay",
        "right": "stay",
        "left": "stay",
        "address": "clamp",
        "address-hvp": "clamp",
        "index": "scroll",
        "next-line": "scroll",
        "reverse-index": "scroll",
        "insert-line": "return",
        "delete-line": "return",
    },
}
"""What the cursor does where a command would lead off the screen, or has moved rows."""
MARGINS = {"singlebyte-24x80": ("next-row", "scroll"), "ecma48-24x80": ("pending", "scroll")}
"""Behind the last column, and below the last row."""
MATRICES = {"singlebyte-24x80": (8, 8, False, "key"), "ecma48-24x80": (10, 7, True, "automatic")}
"""Rows, columns, diodes, and what repeats a key."""

REPEAT_NEVER = {
    "singlebyte-24x80": set(),
    "ecma48-24x80": {"f1", "f2", "f3", "f4", "escape", "return"},
}
"""Keys that send their code once however long they are held."""


@pytest.mark.parametrize("name", LINES)
def test_the_line_is_as_its_source_has_it(name):
    link = load(name).link
    found = link.speed_baud, link.data_bits, link.parity, link.stop_bits, link.handshake
    assert found == LINES[name]
    assert tuple(link.speeds_baud) == SPEEDS[name]


@pytest.mark.parametrize("name", EDGES)
def test_each_edge_is_as_its_source_has_it(name):
    assert {one.name: one.edge for one in load(name).commands if one.edge} == EDGES[name]


@pytest.mark.parametrize("name", MARGINS)
def test_the_margins_are_as_their_source_has_them(name):
    printing = load(name).display.printing
    assert (printing.last_column, printing.last_row) == MARGINS[name]
    assert (printing.first, printing.last) == (0x20, 0x7E)  # RFC 20 section 2: SP to ~


@pytest.mark.parametrize("name", MATRICES)
def test_the_keyboard_is_wired_as_its_notes_have_it(name):
    keyboard = load(name).keyboard
    found = keyboard.rows, keyboard.columns, keyboard.diodes, keyboard.repeat
    assert found == MATRICES[name]


@pytest.mark.parametrize("name", REPEAT_NEVER)
def test_keys_that_never_repeat_are_those_of_the_notes(name):
    keys = load(name).keyboard.keys
    assert {key.name for key in keys if not key.repeats} == REPEAT_NEVER[name]
