"""Where the differences are, which bit explains them, and what contradicts: in words."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.bit_faults import COLUMNS, ROWS, faulty, screen, shown, stuck, told
from termprobe.report.evidence_words import (
    area_in_words,
    change_in_words,
    part_in_words,
    sentences,
    span,
)
from termprobe.terminal.screen import UNKNOWN_CHARACTER, Difference, differences
from termprobe.verdict.changes import (
    Block,
    Change,
    EveryOther,
    Everywhere,
    OneLine,
    Part,
    SingleCells,
    changes,
)
from termprobe.verdict.evidence import of_bytes, of_screen


def test_where_several_changes_fit_alike_all_are_told():
    said = told(("A" * COLUMNS,) * 2, ("C" * COLUMNS,) * 2)
    assert said[0] == "in every cell that can show it; bit 1 arrives as 1"
    blank = told(("!" * 80,), (" " * 80,))
    assert blank[1].startswith("the same would be seen if ")
    assert "bit 0 arrives as 0" in " ".join(blank) and "blank" in " ".join(blank)


def test_what_is_not_there_is_called_blank():
    said = told(screen(3), (" " * COLUMNS,) * ROWS)
    why = "no single bit explains it, but what should be there is blank"
    assert said[0] == f"in every cell that can show it; {why}"


def test_what_contradicts_is_named_three_cells_at_most():
    seen = ["A"] * 60
    for index, wrong in ((5, "x"), (9, "\u2407"), (20, "\ufffd"), (40, "z")):
        seen[index] = wrong
    assert told(("@" * 60,), ("".join(seen),))[-1] == (
        "4 of 60 observations contradict this, look again: "
        'row 0, column 5 ("@" seen as "x"), row 0, column 9 ("@" seen as BEL), '
        'row 0, column 20 ("@" seen as \ufffd) and 1 more'
    )


def test_some_cells_outside_the_part_are_counted():
    rows = ("@" * 40,) * 4
    seen = ("@" * 40, "A" * 40, "A" + "@" * 39, "A" * 40)
    assert told(rows, seen)[0] == "80 of 81 differences are in an odd row; bit 0 arrives as 1"


def test_marks_of_a_builder_say_nothing_of_other_cells():
    rows = screen(5)
    marked = [(1, 1), (3, 7), (5, 70), (9, 9), (11, 2)]
    marks = tuple(
        Difference(row, column, rows[row][column], shown(ord(rows[row][column]) | 1))
        for row, column in marked
        if not ord(rows[row][column]) & 1
    )
    assert len(marks) >= 2
    first = sentences(of_screen(rows, marks, is_whole=False))[0]
    assert first.endswith("bit 0 arrives as 1") and "every cell that" not in first
    assert sentences(of_screen(rows, marks, is_whole=True))[0] != first


@pytest.mark.parametrize(
    "cells, text",
    [
        ([(3, 4)], "marked at row 3, column 4"),
        ([(3, 4), (5, 6)], "marked at row 3, column 4, row 5, column 6"),
        ([(3, column) for column in range(9)], "every cell marked is in row 3"),
        ([(1, 2), (3, 5), (7, 9), (9, 10)], "every cell marked is in an odd row"),
        ([(0, 0), (5, 4), (6, 5), (23, 79)], "the cells marked are spread over the screen"),
    ],
)
def test_of_cells_that_are_only_marked_it_is_told_where_and_not_that_there_are_no_others(
    cells, text
):
    marks = tuple(Difference(*cell, "A", UNKNOWN_CHARACTER) for cell in cells)
    said = sentences(of_screen(screen(1), marks, is_whole=False))
    assert said == (f"{text}; what is seen there is not told",)


def test_where_cells_are_and_which_bit_it_is_do_not_contradict_each_other():
    """Two rows are marked whole; of three cells it is known what stands there."""
    rows = ("@" * COLUMNS,) * ROWS
    seen = {(4, 1): "A", (4, 2): "A", (9, 7): "A"}
    marks = tuple(
        Difference(row, column, "@", seen.get((row, column), UNKNOWN_CHARACTER))
        for row in (4, 9)
        for column in range(COLUMNS)
    )
    said = sentences(of_screen(rows, marks, is_whole=False))
    assert said == (
        "every cell marked is in rows 4 to 9, columns 0 to 79; bit 0 arrives as 1",
        "what is seen is known of 3 of the 160 cells marked",
        *said[2:],
    )
    assert "only" not in " ".join(said)


def test_a_bit_that_only_some_cells_can_show_is_not_told_of_all_the_screen():
    """Every other row has the bit already, as a letter for each row has."""
    rows = tuple(chr(0x41 + row) * COLUMNS for row in range(ROWS))
    seen = faulty(rows, stuck(0, 1), lambda row, column, character: row % 2 == 1)
    assert told(rows, seen) == (
        "in every cell that can show it; bit 0 arrives as 1",
        "only cells in an odd row can show it",
    )
    everywhere = ("@A" * (COLUMNS // 2),) * ROWS
    assert told(everywhere, faulty(everywhere, stuck(0, 1)))[1:] == (
        "only cells in an even column can show it",
    )


def test_cells_of_a_small_block_that_alone_can_show_a_bit_are_told():
    top = ("A" * 9 + "@@@@" + "A" * (COLUMNS - 13),) * 3
    rows = (*top, *("A" * COLUMNS,) * (ROWS - 3))
    said = told(rows, faulty(rows, stuck(0, 1)))
    assert said[1] == "only cells in rows 0 to 2, columns 9 to 12 can show it"


@pytest.mark.parametrize(
    "cells, text",
    [
        ([(3, 4)], "the only difference is at row 3, column 4"),
        ([(3, 4), (5, 6)], "the only differences are at row 3, column 4, row 5, column 6"),
        ([(3, column) for column in range(9)], "every difference is in row 3"),
        ([(row, 9) for row in range(9)], "every difference is in column 9"),
        ([(1, 2), (3, 5), (7, 9), (9, 10)], "every difference is in an odd row"),
        ([(1, 2), (2, 4), (7, 6), (9, 10)], "every difference is in an even column"),
        ([(4, 3), (5, 4), (6, 5), (7, 3)], "every difference is in rows 4 to 7, columns 3 to 5"),
    ],
)
def test_where_the_differences_are_is_told_also_without_a_bit(cells, text):
    rows = screen(1)
    got = [list(row) for row in rows]
    for row, column in cells:
        got[row][column] = "\ufffd"
    assert told(rows, tuple(map("".join, got))) == (f"{text}; no single bit explains it",)


def test_characters_without_a_code_are_no_bit_s_fault():
    assert "no single bit explains it" in told(("AAAA",), ("\ufffd\ufffdéü",))[0]


@given(st.text(max_size=200), st.text(max_size=200), st.booleans())
def test_any_two_screens_give_sentences(expected, seen, is_whole):
    rows, got = tuple(expected.split("\n")), tuple(seen.split("\n"))
    said = told(rows, got, is_whole=is_whole)
    assert bool(said) == bool(differences(rows, got))
    assert all(isinstance(text, str) and text for text in said)


@pytest.mark.parametrize(
    "wanted, came, text",
    [
        (b"HELLO\r", b"HGLLO\r", "1 of 6 characters differ; bit 1 arrives as 1"),
        (b"QAZ\r", b"XYZ\r", "2 of 4 characters differ; no single bit explains it"),
    ],
)
def test_of_bytes_that_came_back_it_is_told_how_many_differ(wanted, came, text):
    assert sentences(of_bytes(wanted, came))[0] == text


def test_of_bytes_the_character_that_contradicts_is_told_by_its_number():
    said = sentences(of_bytes(b"@" * 12, b"A" * 11 + b"x"))
    assert said[-1] == (
        '1 of 12 observations contradicts this, look again: character 12 ("@" seen as "x")'
    )


def test_a_span_of_one_is_no_span():
    assert (span("row", 3, 3), span("row", 3, 5)) == ("row 3", "rows 3 to 5")


@pytest.mark.parametrize(
    "change, text",
    [
        (Change("blank"), "what should be there is blank"),
        (Change("stuck", (3,), 0), "bit 3 arrives as 0"),
        (Change("bridged", (0, 1), 0), "bits 0 and 1 both arrive as 0 unless both should be 1"),
        (Change("bridged", (0, 1), 1), "bits 0 and 1 both arrive as 1 unless both should be 0"),
        (Change("exchanged", (0, 1)), "bits 0 and 1 arrive swapped"),
    ],
)
def test_a_change_in_words(change, text):
    assert change_in_words(change) == text


def test_no_two_changes_have_the_same_words():
    assert len(set(map(change_in_words, changes()))) == len(changes())


@pytest.mark.parametrize(
    "area, text",
    [
        (Everywhere(), "all over the screen"),
        (EveryOther("row", 1), "in an odd row"),
        (EveryOther("column", 0), "in an even column"),
        (OneLine("column", 7), "in column 7"),
        (Block(1, 1, 2, 5), "in row 1, columns 2 to 5"),
        (SingleCells(frozenset({(1, 2)})), "in a single cell"),
        (SingleCells(frozenset({(1, 2), (3, 4)})), "in single cells"),
    ],
)
def test_a_part_in_words(area, text):
    assert area_in_words(area) == part_in_words(Part(area)) == text
    assert part_in_words(Part(area, is_written_only=True)) == f"{text}, blanks being right"
