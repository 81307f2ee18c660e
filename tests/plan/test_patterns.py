"""The pattern library: regular screens, as published and as the addressing asks for."""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.paths import WORKED
from termprobe.plan.patterns import (
    PATTERNS,
    PRIME,
    address_modulo,
    address_parity,
    code_chart,
    diagonal,
    rotating,
    solid,
)

ARGUMENTS = {
    "solid": "*",
    "stripes": "*U",
    "bars": "*U",
    "checkerboard": "*U",
    "diagonal": "!",
    "address-parity": "-#",
    "rotating": "0",
}
WITHOUT_DEFAULT = ("solid", "stripes", "bars", "checkerboard", "address-parity")


@given(st.sampled_from(sorted(PATTERNS)), st.integers(1, 60), st.integers(1, 140))
def test_each_pattern_fills_a_screen_of_any_size_with_printable_characters(name, rows, columns):
    screen = PATTERNS[name].draw(rows, columns, ARGUMENTS.get(name))
    assert len(screen) == rows and {len(row) for row in screen} == {columns}
    assert all(" " <= character <= "~" for character in "".join(screen))


@pytest.mark.parametrize("argument", [None, ""])
@pytest.mark.parametrize("name", WITHOUT_DEFAULT)
def test_a_pattern_that_cannot_do_without_an_argument_says_so(name, argument):
    with pytest.raises(ValueError, match="argument"):
        PATTERNS[name].draw(24, 80, argument)


def test_rotating_rows_are_those_of_rfc_864():
    """RFC 864, data syntax: 72 characters a line out of a ring of 95.

    The file names how its rows were worked out.
    """
    for line in (WORKED / "rfc864.txt").read_text().splitlines():
        if not line.startswith("#"):
            number, row = line.split(" ", 1)
            assert rotating(1, 80, number)[0] == row[1:-1] + " " * 8


def test_code_chart_shows_each_printing_character_once():
    """RFC 20 section 2: columns 2 to 7, rows 0 to 15, without DEL."""
    shown = "".join(code_chart(24, 80, None)).replace(" ", "")
    assert sorted(shown) == [chr(code) for code in range(0x21, 0x7F)]


def test_the_two_solid_characters_put_both_levels_on_every_data_line():
    assert ord("*") ^ ord("U") == 0x7F


@pytest.mark.parametrize("line", range(11))
def test_parity_changes_with_every_single_address_line(line):
    screen = address_parity(24, 80, "-#")
    pairs = 0
    for row, column in itertools.product(range(24), range(80)):
        address = (row // 2) << 7 | column
        other = address ^ 1 << line
        other_row, other_column = (other >> 7) * 2 + row % 2, other & 0x7F
        if other_row < 24 and other_column < 80:
            pairs += 1
            assert screen[row][column] != screen[other_row][other_column]
    assert pairs


def test_no_difference_of_two_addresses_by_one_line_hides_in_the_prime():
    assert all((1 << line) % PRIME for line in range(11))
    screen = address_modulo(24, 80, None)
    assert screen[0][1] != screen[0][0] and screen[0] == screen[1]


def test_slanting_lines_begin_with_the_argument_or_the_first_graphic():
    assert diagonal(2, 3, None) == ['!"#', '"#$'] and diagonal(2, 3, "}") == ["}~ ", "~ !"]


def test_an_argument_is_what_fills_the_field():
    assert solid(2, 3, "U") == ["UUU", "UUU"]
