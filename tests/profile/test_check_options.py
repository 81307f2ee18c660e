"""What is wrong with what the options of a profile do to its display."""

import pytest

from helpers.special import special_text
from termprobe.errors import FileError
from termprobe.profile.load import parse

VARIANTS = "variants: {german: german, swedish: swedish-names}"
ROWS = "rows: {'12': 12}"


def finding(before, after):
    with pytest.raises(FileError) as caught:
        parse(special_text().replace(before, after), "special.yaml")
    (found,) = caught.value.findings
    return found


def test_a_variant_must_be_one_that_there_is():
    found = finding(VARIANTS, "variants: {german: germane}")
    assert "a variant must be one of us, irv-1983" in found and 'nearest is "german"' in found


def test_what_is_named_must_be_a_position():
    found = finding(VARIANTS, "variants: {germany: german}")
    assert "must be a position of character-set (ascii, german, swedish)" in found
    assert "must be a position of rows (24, 12)" in finding(ROWS, "rows: {'13': 12}")


def test_all_rows_are_lit_or_half_of_them():
    found = finding(ROWS, "rows: {'12': 11}")
    assert "rows of rows must be 24, all of the display's, or 12, half of them, not 11" in found
    odd = special_text().replace("rows: 24\n", "rows: 23\n").replace(ROWS, "rows: {'12': 11}")
    with pytest.raises(FileError, match="must be 23, all of the display's, not 11"):
        parse(odd, "special.yaml")


@pytest.mark.parametrize("what", [VARIANTS, ROWS])
def test_one_option_alone_has_to_do_with_it(what):
    other = f"  - name: other\n    positions: [german, swedish, '12']\n    normal: german\n\
    meaning: another\n    source: invented\n    {what}\n"
    found = finding("options:\n", f"options:\n{other}")
    assert "must be given of one option only" in found


def test_a_graphics_set_shows_printable_codes_and_is_there_where_a_command_takes_it():
    graphics = "  graphics: {first: 7Dh, shows: abc, source: invented}\n  rows: 24\n"
    found = finding("  rows: 24\n", graphics)
    assert (
        "graphics must show characters for some of the codes 20h to 7Eh, not for 7Dh to 7Fh"
        in found
    )
    command = "  - {name: shift, bytes: SO, action: graphics-on, source: invented}\noptions:\n"
    assert 'display must have the key "graphics"' in finding("options:\n", command)
