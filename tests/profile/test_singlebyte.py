"""What the single-byte terminal is: its codes, their edges, and where its keys stand.

The tables are the definition of the terminal, written by hand. No standard rules its edges, so no
other source could hold them.
"""

import itertools

import pytest

from helpers.boards import at, faulty
from termprobe.profile.load import load
from termprobe.terminal.reference import Reference

PROFILE = load("singlebyte-24x80")
KEYBOARD = PROFILE.keyboard

COMMANDS = {
    b"\x07": ("bell", None),
    b"\x08": ("left", "stay"),
    b"\x0a": ("down", "scroll"),
    b"\x0b": ("up", "stay"),
    b"\x0c": ("right", "stay"),
    b"\x0d": ("return", None),
    b"\x1a": ("clear", None),
    b"\x1e": ("home", None),
    b"\x1b=": ("address", "keep"),
    b"\x1bT": ("erase-to-end-of-line", None),
    b"\x1bY": ("erase-to-end-of-display", None),
}
"""The bytes of each command, without its coordinates: its action, and its edge."""

EDGES = {
    "left of column 0": (at(5, 0) + b"\x08", (5, 0)),
    "right of the last column": (at(5, 79) + b"\x0c", (5, 79)),
    "up from the top row": (at(0, 7) + b"\x0b", (0, 7)),
    "down from the bottom row, the column kept": (at(23, 7) + b"\x0a", (23, 7)),
    "return": (at(5, 7) + b"\x0d", (5, 0)),
    "home": (at(5, 7) + b"\x1e", (0, 0)),
    "clear, then home": (at(5, 7) + b"\x1a", (0, 0)),
    "a row that is not there": (at(5, 7) + at(24, 9), (5, 9)),
    "a column that is not there": (at(5, 7) + at(9, 80), (9, 7)),
    "a row below the first": (at(5, 7) + b"\x1b=\x1f)", (5, 9)),
    "stored in the last column": (at(5, 79) + b"x", (6, 0)),
    "stored in the last cell": (at(23, 79) + b"x", (23, 0)),
    "erase to the end of the row": (at(5, 7) + b"\x1bT", (5, 7)),
    "erase to the end of the screen": (at(5, 7) + b"\x1bY", (5, 7)),
    "a code that is no command": (at(5, 7) + b"\x00\x7f\x11", (5, 7)),
}
"""What is done: the bytes, and where the cursor stands after them."""


def both_screens(data):
    """Return the screen that must be seen after `data`, and that of the simulated board."""
    reference, board = Reference(PROFILE), faulty()
    reference.feed(b"\x1a" + data)
    board.receive(data)
    return reference.screen(), board.screen()


def test_the_profile_has_these_commands_and_no_other():
    has = {bytes(command.bytes[0]): (command.action, command.edge) for command in PROFILE.commands}
    assert has == COMMANDS


@pytest.mark.parametrize("edge", EDGES)
def test_the_cursor_stands_where_each_edge_says(edge):
    data, cursor = EDGES[edge]
    for screen in both_screens(data):
        assert screen.cursor == cursor


def test_the_bottom_row_scrolls_and_the_new_one_is_blank():
    filled = b"".join(at(row, 0) + bytes([0x41 + row]) for row in range(24))
    for data, column in ((at(23, 7) + b"\x0a", 7), (at(23, 79) + b"x", 0)):
        for screen in both_screens(filled + data):
            assert [row[0] for row in screen.rows] == [*map(chr, range(0x42, 0x59)), " "]
            assert not screen.rows[23].strip() and screen.cursor == (23, column)


def test_erasing_begins_at_the_cursor_and_ends_with_the_row_or_the_screen():
    filled = b"#" * (24 * 80 - 1)
    whole = "#" * 80
    cut = "#" * 7 + " " * 73
    for screen in both_screens(filled + at(5, 7) + b"\x1bT"):
        assert screen.rows[:-1] == (whole,) * 5 + (cut,) + (whole,) * 17
    for screen in both_screens(filled + at(5, 7) + b"\x1bY"):
        assert screen.rows == (whole,) * 5 + (cut,) + (" " * 80,) * 18


def test_only_20h_to_7eh_are_stored():
    for screen in both_screens(b"".join(at(0, code % 80) + bytes([code]) for code in (0, 0x7F))):
        assert not "".join(screen.rows).strip()
    assert (PROFILE.display.printing.first, PROFILE.display.printing.last) == (0x20, 0x7E)


def key(name):
    """Return a key, which the keyboard must have."""
    found = KEYBOARD.key(name)
    assert found is not None, name
    return found


def end(one):
    """Return where a key ends, in key widths from the left."""
    return one.offset + one.width


def test_escape_and_break_stand_in_a_cluster_of_their_own():
    cluster = [key("escape"), key("break")]
    others = [one for one in KEYBOARD.keys if one not in cluster]
    left = min(one.offset for one in cluster)
    right = max(map(end, cluster))
    top, bottom = min(one.row for one in cluster), max(one.row for one in cluster)
    beside = [one for one in others if top <= one.row <= bottom]
    assert all(end(one) < left or one.offset > right for one in beside)
    near = [one for one in others if top - 1 <= one.row <= bottom + 1]
    assert not [one.name for one in near if one.offset < right and end(one) > left]


def test_the_pairs_that_follow_no_digit_are_not_in_the_row_of_the_digits():
    digits = key("1").row
    for legend in ("^ ~", ": *"):
        (paired,) = [one for one in KEYBOARD.keys if one.legend == legend]
        assert paired.row != digits


def test_rub_out_and_underline_are_keys_of_their_own():
    (rubout,) = [one for one in KEYBOARD.keys if one.code == b"\x7f"]
    (underline,) = [one for one in KEYBOARD.keys if one.code == b"_"]
    assert "_" not in rubout.legend and underline.legend == "_"
    assert abs(rubout.row - underline.row) + abs(rubout.offset - underline.offset) > 1


def test_characters_share_keys_by_one_bit():
    legends = [one.legend for one in KEYBOARD.keys if one.role == "code"]
    pairs = [legend.split() for legend in legends if len(legend) == 3 and legend[1] == " "]
    assert len(pairs) == 9 + 11
    assert {(ord(first) ^ ord(second)) for first, second in pairs} == {0x10, 0x20}


def test_no_two_keys_share_a_place():
    for one, other in itertools.combinations(KEYBOARD.keys, 2):
        if one.row == other.row:
            assert end(one) <= other.offset or end(other) <= one.offset
