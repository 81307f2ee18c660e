"""The endless text: the same each time, numbered, within the codes, and hard where it must be."""

from hypothesis import given
from hypothesis import strategies as st

from termprobe.line.stream import (
    BLOCK,
    PRINTABLE,
    TAG,
    Stream,
    carried_codes,
)
from termprobe.link.pacer import XOFF, XON

numbers = st.integers(0, 10**12)
codes = st.sampled_from([carried_codes(8), carried_codes(7), carried_codes(7, False), PRINTABLE])


@given(codes, st.integers(0, 99), numbers)
def test_a_block_is_always_the_same_and_says_its_number(codes, seed, number):
    block = Stream(codes, seed).block(number)
    assert block == Stream(codes, seed).block(number) and len(block) == BLOCK
    assert set(block) <= set(codes)
    assert int(TAG.match(block).group(1), 16) == number % 16**8


def test_an_even_block_is_by_chance_and_goes_by_the_seed():
    assert Stream(PRINTABLE, 1).block(0) != Stream(PRINTABLE, 2).block(0)
    assert Stream(PRINTABLE, 1).block(0)[9:] != Stream(PRINTABLE, 1).block(2)[9:]


def test_the_odd_blocks_hold_what_is_hardest_on_a_line():
    held = b"".join(Stream(carried_codes(8), 1).block(number)[9:] for number in range(1, 41, 2))
    assert {0x55, 0xAA, 0x00, 0xFF, 0x01, 0x80, 0xFE, 0x7F} <= set(held)


def test_a_line_with_xon_and_xoff_does_not_carry_them():
    assert {XON, XOFF}.isdisjoint(carried_codes(7, keeps_xon_xoff=False))
    assert len(carried_codes(7)) == 128 and len(carried_codes(8)) == 256
