"""The character sets: every printing character drawn once, in its box, unlike all others."""

import hashlib
import itertools

import pytest

from termprobe.errors import FileError
from termprobe.profile.characters import PRINTING, art_of, character_set, character_sets, parse
from termprobe.profile.variants import open_codes, shown_as, variants

SETS = character_sets()
OPEN = open_codes().decode()
SHIPPED = {"5x7": "01caa65ad4026dfa", "7x9": "a46e6b46f7ad7e26"}
"""The first digits of a digest of the drawings. A set that was shipped stays as it is."""


@pytest.mark.parametrize("name", SETS)
def test_each_printing_character_is_drawn_in_its_box_unlike_any_other(name):
    drawn = character_set(name)
    assert sorted(drawn.glyphs) == list(PRINTING)
    assert len(set(drawn.glyphs.values())) == len(PRINTING)
    for glyph in drawn.glyphs.values():
        assert len(glyph) == drawn.rows and min(glyph) >= 0 and max(glyph) < 1 << drawn.columns
    assert not any(drawn.glyphs[0x20])
    assert all(any(glyph) for code, glyph in drawn.glyphs.items() if code != 0x20)


@pytest.mark.parametrize("name", SETS)
@pytest.mark.parametrize("variant", variants())
def test_each_open_place_of_each_variant_is_drawn_unlike_all_else_in_that_variant(name, variant):
    drawn = character_set(name)
    shown = shown_as("".join(map(chr, PRINTING)), variant)
    drawings = [drawn.glyph_of(character) for character in shown]
    assert None not in drawings
    assert len(set(drawings)) == len(PRINTING)


@pytest.mark.parametrize("name", SETS)
def test_what_variants_show_is_drawn_in_the_same_box_and_nothing_beside_it(name):
    drawn = character_set(name)
    shown = {character for variant in variants() for character in shown_as(OPEN, variant)}
    assert set(map(chr, drawn.national)) == {one for one in shown if not one.isascii()}
    for glyph in drawn.national.values():
        assert len(glyph) == drawn.rows and any(glyph) and max(glyph) < 1 << drawn.columns
    assert drawn.glyph_of("\u2603") is None


@pytest.mark.parametrize("name", SETS)
def test_what_is_easily_mistaken_differs_in_several_dots(name):
    drawn = character_set(name)
    for alike in ("0O", "1lI|", "5S", "2Z", "8B", "`'"):
        for one, other in itertools.combinations(alike, 2):
            pairs = zip(drawn.glyphs[ord(one)], drawn.glyphs[ord(other)], strict=True)
            assert sum((first ^ second).bit_count() for first, second in pairs) >= 3, one + other


@pytest.mark.parametrize("name", SETS)
def test_each_row_and_column_of_dots_is_used_by_some_character(name):
    drawn = character_set(name)
    by_row = [0] * drawn.rows
    for glyph in drawn.glyphs.values():
        by_row = [used | row for used, row in zip(by_row, glyph, strict=True)]
    assert all(by_row)
    assert set("".join(art_of(by_row, drawn.columns)[0])) <= {"#", "."}
    assert sum(row.bit_length() == drawn.columns for row in by_row) > 1


@pytest.mark.parametrize("name", SETS)
def test_a_set_that_was_shipped_is_never_drawn_anew(name):
    drawn = character_set(name)
    told = hashlib.sha256(repr(sorted(drawn.glyphs.items())).encode()).hexdigest()
    assert told.startswith(SHIPPED[name])


def test_a_letter_is_drawn_as_the_file_draws_it():
    drawn = character_set("5x7")
    assert art_of(drawn.glyphs[ord("F")], drawn.columns) == (
        "#####",
        "#....",
        "#....",
        "####.",
        "#....",
        "#....",
        "#....",
    )


ONE = "id: s\ntitle: t\ncolumns: 1\nrows: 1\nsource: own\ndrawings: |\n"
HEADS = " ".join(f"{code:02X} {chr(code)}" if code != 0x20 else "20 SP" for code in PRINTING)
ASCII = f"  {HEADS}\n  {' '.join('#' * len(PRINTING))}\n"


@pytest.mark.parametrize(
    "national, told",
    [
        ("  A3 x\n", "the drawing of A3h must be 1 rows of 1 dots"),
        ("  A3 x A4 y\n  #\n", "each band of drawings must be complete"),
        ("  41 A\n  #\n", "national must be of characters that drawings has not, each once, not"),
        ("  A3 x A3 x\n  # .\n", 'each once, not as of "A3h"'),
    ],
)
def test_what_variants_show_is_checked_like_the_others(national, told):
    assert parse(ONE + ASCII + "national: |\n  A3 x\n  #\n", "s.yaml").national == {0xA3: (1,)}
    with pytest.raises(FileError) as error:
        parse(ONE + ASCII + "national: |\n" + national, "s.yaml")
    assert told in str(error.value.findings)


HEAD = "id: s\ntitle: t\ncolumns: 3\nrows: 2\nsource: own\ndrawings: |\n"


@pytest.mark.parametrize(
    "drawings, told",
    [
        ("  41 A 42 B\n  #.# ###\n  #.#\n", "each band of drawings must be complete"),
        ("  41 A\n  #.#\n  #.\n", "the drawing of 41h must be 2 rows of 3 dots"),
        ("  41 A\n  #x#\n  #.#\n", "the drawing of 41h must be 2 rows of 3 dots, # or ."),
        ("  41 A\n  #.#\n  #.#\n", "each code from 20h to 7Eh once, not as of"),
    ],
)
def test_what_is_not_drawn_as_it_must_be_is_a_finding(drawings, told):
    with pytest.raises(FileError) as error:
        parse(HEAD + drawings, "s.yaml")
    assert told in "\n".join(error.value.findings)
