"""Protected fields and the graphics set: what is written and erased, and what is not."""

import pytest

from helpers.special import SHAPES, with_fields
from termprobe.terminal.reference import Reference

PROTECT, UNPROTECT, GUARD, UNGUARD = b"\x1b(", b"\x1b)", b"\x1b&", b"\x1b*"
CLEAR, HOME = b"\x02", b"\x1c"


def shown(*data, edge="skip"):
    reference = Reference(with_fields(edge))
    reference.feed(b"".join(data))
    return reference.screen()


def row(*data, number=0, **edge):
    return shown(*data, **edge).rows[number].rstrip()


FORM = b"AB" + PROTECT + b"KEPT" + UNPROTECT + b"CD"


def test_protected_cells_are_as_all_others_while_none_is_guarded():
    assert row(FORM, HOME, b"0123456789") == "0123456789"


def test_what_meets_a_guarded_cell_goes_to_the_next_other_one():
    assert row(FORM, GUARD, HOME, b"abcd") == "abKEPTcd"
    screen = shown(FORM, GUARD, HOME, b"abc")
    assert screen.cursor == (0, 7)


def test_or_it_is_lost():
    assert row(FORM, GUARD, HOME, b"abcd", edge="stay") == "abKEPTCD"
    assert shown(FORM, GUARD, HOME, b"abcd", edge="stay").cursor == (0, 2)


def test_guarded_cells_are_erased_by_nothing_until_the_guard_ends():
    assert row(FORM, GUARD, CLEAR) == "  KEPT"
    assert row(FORM, GUARD, UNGUARD, CLEAR) == ""


def test_a_screen_of_guarded_cells_alone_takes_nothing():
    full = PROTECT + b"X" * 40 * 24 + UNPROTECT
    wide = b"Y" * 3
    assert shown(full, GUARD, HOME, wide).rows[0] == "X" * 40


def test_a_row_that_ends_guarded_is_gone_on_with_in_the_next():
    end = b"\x1d" + bytes([0x30 + 38, 0x30]) + PROTECT + b"XY" + UNPROTECT
    screen = shown(end, GUARD, b"\x1d" + bytes([0x30 + 37, 0x30]), b"ab")
    assert screen.rows[0].rstrip().endswith("aXY") and screen.rows[1].startswith("b")


def test_plain_ends_renditions_and_no_protection():
    screen = shown(PROTECT, b"\x1bDAB\x1bPCD", UNPROTECT, GUARD, HOME, b"z")
    assert screen.rows[0].startswith("ABCDz")
    assert screen.renditions == {(0, 0): "d", (0, 1): "d"}


@pytest.mark.parametrize("code, shape", list(enumerate(SHAPES, 0x60)))
def test_the_graphics_set_shows_its_shapes_for_its_codes_alone(code, shape):
    text = bytes([code]) + b"A"
    assert row(b"\x0e", text, b"\x0f", text) == f"{shape}A{chr(code)}A"


def test_the_printer_codes_leave_the_screen_alone():
    assert row(b"A\x12B\x14C") == "ABC"
