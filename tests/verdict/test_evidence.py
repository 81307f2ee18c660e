"""Faults of one or two bits are put into a screen.

The evidence must name exactly them, or own that no bit explains it.
"""

import random

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from helpers.bit_faults import COLUMNS, ROWS, TEXT, faulty, screen, shown, stuck, told
from helpers.examples import examples
from termprobe.report.evidence_words import sentences
from termprobe.terminal.screen import differences
from termprobe.verdict.changes import Change, EveryOther, Part
from termprobe.verdict.evidence import code_of_character, explain, of_bytes, of_screen

bits = st.integers(0, 6)
levels = st.integers(0, 1)
seeds = st.integers(0, 10**6)
cells = st.tuples(st.integers(0, ROWS - 1), st.integers(0, COLUMNS - 1))
BANKS = {
    "in every cell that can show it": lambda row, column, character: True,
    "every difference is in an even row": lambda row, column, character: row % 2 == 0,
    "every difference is in an odd row": lambda row, column, character: row % 2 == 1,
    "every difference is in an even column": lambda row, column, character: column % 2 == 0,
    "every difference is in an odd column": lambda row, column, character: column % 2 == 1,
}


@examples(60)
@given(seeds, bits, levels, st.sampled_from(list(BANKS)))
def test_a_stuck_line_of_all_or_every_other_row_or_column_is_named(seed, bit, value, where):
    rows = screen(seed)
    seen = faulty(rows, stuck(bit, value), BANKS[where])
    assert told(rows, seen) == (f"{where}; bit {bit} arrives as {value}",)


@examples(40)
@given(seeds, bits, levels)
def test_a_stuck_line_on_the_way_in_leaves_blanks_right_and_that_is_told(seed, bit, value):
    rows = screen(seed, 0.4)
    seen = faulty(rows, stuck(bit, value), lambda r, c, ch: ch != " ")
    first = told(rows, seen)[0]
    assume((value == 1) != bool(0x20 >> bit & 1))  # else a blank could not show it
    assert (
        first
        == f"in every character that can show it, blanks being right; bit {bit} arrives as {value}"
    )


@examples(40)
@given(seeds, bits, levels, st.integers(0, ROWS - 1))
def test_a_stuck_bit_in_one_row_is_named_with_the_row(seed, bit, value, row):
    rows = screen(seed)
    first = told(rows, faulty(rows, stuck(bit, value), lambda r, c, ch: r == row))[0]
    assert first == f"every difference is in row {row}; bit {bit} arrives as {value}"


@examples(40)
@given(seeds, bits, levels, st.integers(0, COLUMNS - 1))
def test_a_stuck_bit_in_one_column_is_named_with_the_column(seed, bit, value, column):
    rows = screen(seed)
    seen = faulty(rows, stuck(bit, value), lambda r, c, ch: c == column)
    assume(len(differences(rows, seen)) > 4)
    first = told(rows, seen)[0]
    assert first == f"every difference is in column {column}; bit {bit} arrives as {value}"


@examples(40)
@given(seeds, bits, levels)
def test_half_a_screen_is_named_as_a_block(seed, bit, value):
    rows = screen(seed)
    seen = faulty(rows, stuck(bit, value), lambda r, c, ch: r >= 12)
    differ = differences(rows, seen)
    numbers, columns = {row for row, *_ in differ}, {column for _, column, *_ in differ}
    left, right = min(columns), max(columns)
    assert (min(numbers), max(numbers)) == (12, 23) and left < 10 and right > 70
    block = f"every difference is in rows 12 to 23, columns {left} to {right}"
    assert told(rows, seen)[0] == f"{block}; bit {bit} arrives as {value}"


@examples(40)
@given(seeds, bits, levels, st.lists(cells, min_size=2, max_size=4, unique=True))
def test_single_cells_are_named_as_such(seed, bit, value, some):
    rows = screen(seed)
    shows = {(row, column): ord(rows[row][column]) >> bit & 1 != value for row, column in some}
    some = [cell for cell in some if shows[cell]]
    assume(len({row for row, _ in some}) > 1 and len({column for _, column in some}) > 1)
    seen = faulty(rows, stuck(bit, value), lambda r, c, ch: (r, c) in some)
    assert explain(rows, differences(rows, seen)).contradictions == ()
    first = told(rows, seen)[0]
    # Two cells may also be the corners of a block in which nothing else could show it.
    assume("single cells" in first)
    assert first.endswith(f"bit {bit} arrives as {value}")


def bridged(mask, value):
    """Return the function of a code whose two bits in `mask` are bridged at that level."""

    def change(code):
        is_one = code & mask == mask if value == 0 else bool(code & mask)
        return code | mask if is_one else code & ~mask

    return change


def exchanged(mask):
    return lambda code: code ^ mask if code & mask not in (0, mask) else code


@examples(60)
@given(
    seeds,
    st.lists(bits, min_size=2, max_size=2, unique=True).map(sorted),
    st.sampled_from(["0", "1", "exchanged"]),
)
def test_two_bits_bridged_or_exchanged_are_named_and_no_single_one(seed, pair, kind):
    a, b = pair
    mask = 1 << a | 1 << b
    change = {"0": bridged(mask, 0), "1": bridged(mask, 1), "exchanged": exchanged(mask)}[kind]
    rows = screen(seed)
    text = {
        "0": f"bits {a} and {b} both arrive as 0 unless both should be 1",
        "1": f"bits {a} and {b} both arrive as 1 unless both should be 0",
        "exchanged": f"bits {a} and {b} arrive swapped",
    }[kind]
    assert told(rows, faulty(rows, change)) == (
        f"in every cell that can show it; no single bit explains it, but {text}",
    )


@given(seeds, seeds)
def test_noise_is_explained_by_no_bit(seed, other):
    assume(seed != other)
    said = told(screen(seed), screen(other))
    assert said == ("the differences are spread over the screen; no single bit explains it",)


@examples(60)
@given(seeds, bits, levels, st.data())
def test_one_observation_in_ten_may_contradict_and_is_named(seed, bit, value, data):
    """A short word as a person writes it down, with one letter that does not fit."""
    chance = random.Random(seed)
    showing = [c for c in TEXT[1:] if ord(c) >> bit & 1 != value]
    word = "".join(chance.choice(showing) for _ in range(12))
    seen = [shown(stuck(bit, value)(ord(character))) for character in word]
    index = data.draw(st.integers(0, 11))
    wrong = data.draw(st.sampled_from(TEXT))
    assume(wrong not in (seen[index], word[index]))
    seen[index] = wrong
    rows, differs = (word,), differences((word,), ("".join(seen),))
    found = explain(rows, differs)
    assert Change("stuck", (bit,), value) in (found.change, *found.alike)
    assert found.contradictions == ((0, index, word[index], wrong),)
    last = sentences(of_screen(rows, differs))[-1]
    assert "1 of 12 observations contradicts this, look again: row 0, column" in last


def test_two_contradictions_in_ten_are_too_many():
    rows, seen = ("@" * 10,), ("A" * 8 + "xy",)
    assert explain(rows, differences(rows, seen)) is None
    assert explain(rows, differences(rows, ("A" * 9 + "x",))) is not None


def test_the_written_sample_of_a_space_that_shows_as_an_exclamation_mark():
    """Worked by hand: 20h seen as 21h is bit 0 as 1; 31h, 39h and 51h, 59h are bit 3; 2Ch, 3Ch bit
    4.
    """
    assert "bit 0 arrives as 1" in told((" " * 8,), ("!" * 8,))[0]
    assert "bit 3 arrives as 1" in told(("1Q",), ("9Y",))[0]
    assert "bit 4 arrives as 1" in told((",",), ("<",))[0]


def test_what_is_kept_of_the_differences():
    rows, seen = ("ABAB", "ABAB"), ("ABAB", "CBCB")
    found = of_screen(rows, differences(rows, seen))
    assert found.differs == ((1, 0, "A", "C"), (1, 2, "A", "C"))
    assert (found.rows, found.columns, found.is_of_bytes, found.is_whole) == (2, 4, False, True)
    explanation = found.explanation
    assert explanation.change == Change("stuck", (1,), 1)
    assert explanation.part == Part(EveryOther("row", 1))
    assert (explanation.contradictions, explanation.observations) == ((), 2)
    assert of_screen(rows, ()) is None


def test_where_several_changes_fit_alike_the_others_are_kept():
    found = explain(("!" * 80,), differences(("!" * 80,), (" " * 80,)))
    assert {Change("stuck", (0,), 0), Change("blank")} <= {found.change, *found.alike}
    assert found.change not in found.alike


def test_a_single_bit_is_told_before_all_else_that_fits_as_well():
    """Of ! seen as a blank: bit 0 is stuck, or nothing is written at all."""
    found = explain(("!" * 80,), differences(("!" * 80,), (" " * 80,)))
    assert found.change == Change("stuck", (0,), 0) and Change("blank") in found.alike


def test_a_single_bit_that_one_observation_contradicts_is_told_before_two_bits_that_fit():
    """The last cell, which is right, could not show bits 0 and 6 bridged; an eye may slip."""
    rows, seen = ("@" * 12 + '"',), ("A" * 12 + '"',)
    found = explain(rows, differences(rows, seen))
    assert found.change == Change("stuck", (0,), 1)
    assert Change("bridged", (0, 6), 1) in found.alike
    assert found.contradictions == ((0, 12, '"', '"'),)


def test_where_every_other_row_explains_as_much_as_every_other_column_the_rows_are_told():
    """The rows go to two banks of memory by turns.

    All that differs stands in even rows and columns; one @ that is right in an odd row and column
    keeps the whole screen from being told.
    """
    rows = ("@A" * 40, "A@" + "A" * 78) * 2
    seen = ("A" * 80, "A@" + "A" * 78) * 2
    found = explain(rows, differences(rows, seen))
    assert found.part == Part(EveryOther("row", 0)) and found.change == Change("stuck", (0,), 1)


def test_marks_of_a_builder_tell_of_the_marked_cells_alone():
    rows = ("@" * 10,) * 2
    marked = ((0, 1, "@", "A"), (0, 8, "@", "A"))
    assert explain(rows, marked, is_whole=False).observations == 2
    assert explain(rows, marked, is_whole=False).part.is_everywhere
    assert not explain(rows, marked, is_whole=True).part.is_everywhere


@pytest.mark.parametrize(
    "wanted, came",
    [(b"12\r", b"1\r"), (b"A", b"\xc1"), (b"A", b"A"), (b"", b"")],
    ids=["other length", "eighth bit", "nothing differs", "nothing"],
)
def test_bytes_that_cannot_be_compared_give_no_evidence(wanted, came):
    assert of_bytes(wanted, came) is None


def test_bytes_that_came_back_are_one_row():
    found = of_bytes(b"HELLO\r", b"HGLLO\r")
    assert found.differs == ((0, 1, "E", "G"),)
    assert (found.rows, found.columns, found.is_of_bytes) == (1, 6, True)
    assert found.explanation.change == Change("stuck", (1,), 1)


def test_a_control_picture_has_the_code_that_it_stands_for():
    assert [code_of_character(character) for character in "A\u2407\u2421~"] == [0x41, 7, 0x7F, 0x7E]
    assert code_of_character("\ufffd") is None and code_of_character("é") is None


def test_in_a_national_variant_the_bit_is_told_by_the_codes_and_the_cells_as_they_are_seen():
    # bit 0 arrives as 0: 5B 5C 5D 7B 7C 7D 7E become 5A 5C 5C 7A 7C 7C 7E, and so do letters
    rows, seen = ("ÄÖÜäöüß ", "ABCabcxX"), ("ZÖÖzööß ", "@BB`bbxX".replace("@", "§"))
    differs = differences(rows, seen)
    evidence = of_screen(rows, differs, variant="german")
    change = evidence.explanation.change
    assert (change.kind, change.bits, change.level) == ("stuck", (0,), 0)
    assert evidence.differs == differs and differs[0].expected == "Ä"
    assert of_screen(rows, differs).explanation != evidence.explanation
