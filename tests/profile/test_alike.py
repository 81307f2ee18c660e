"""Whether two codings can be taken for one another."""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from termprobe.profile.alike import Slot, are_alike, items_of

SLOTS = {
    Slot.ONE_BYTE: [b"0", b"7", b"A", b";"],
    Slot.DIGITS: [b"0", b"7", b"07", b"770"],
}


def coding(kind, *parts):
    return items_of(parts, kind)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (coding(Slot.DIGITS, b"\x1bA"), coding(Slot.DIGITS, b"\x1bA")),
        (coding(Slot.DIGITS, b"\x1bA"), coding(Slot.DIGITS, b"\x1bAB")),
        (coding(Slot.ONE_BYTE, b"\x1b", "row"), coding(Slot.ONE_BYTE, b"\x1bA")),
        (coding(Slot.DIGITS, b"\x1b", "row", b"A"), coding(Slot.DIGITS, b"\x1b12A")),
        (coding(Slot.DIGITS, b"\x1b", "row", b"A"), coding(Slot.DIGITS, b"\x1b", "row", b"A")),
        (coding(Slot.DIGITS, b"\x1b", "row", b"A"), coding(Slot.ONE_BYTE, b"\x1b", "row", b"A")),
        (coding(Slot.DIGITS, b"\x1b[", "row", b"A"), coding(Slot.ONE_BYTE, b"\x1b", "row", "row")),
    ],
)
def test_what_begins_alike_is_alike(one, other):
    assert are_alike(one, other) and are_alike(other, one)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (coding(Slot.DIGITS, b"\x1bA"), coding(Slot.DIGITS, b"\x1bB")),
        (coding(Slot.DIGITS, b"\x1b", "row", b"A"), coding(Slot.DIGITS, b"\x1b12B")),
        (coding(Slot.DIGITS, b"\x1b", "row", b"A"), coding(Slot.DIGITS, b"\x1b", "row", b"B")),
        (coding(Slot.DIGITS, b"\x1b", "row", b"A"), coding(Slot.DIGITS, b"\x1bA")),
        (coding(Slot.ONE_BYTE, b"\x1b", "row", b"A"), coding(Slot.ONE_BYTE, b"\x1bAB")),
    ],
)
def test_what_differs_before_one_ends_is_not_alike(one, other):
    assert not are_alike(one, other) and not are_alike(other, one)


def bytes_of(items):
    """Return some of the bytes that a coding stands for."""
    choices = [SLOTS[item] if isinstance(item, Slot) else [bytes([item])] for item in items]
    return {b"".join(parts) for parts in itertools.product(*choices)}


ITEMS = st.lists(st.sampled_from([*b"07A;", *Slot]), min_size=1, max_size=4)


@given(ITEMS, ITEMS)
def test_codings_of_which_one_begins_the_other_are_found(one, other):
    some, others = bytes_of(one), bytes_of(other)
    if any(a.startswith(b) or b.startswith(a) for a in some for b in others):
        assert are_alike(one, other)
