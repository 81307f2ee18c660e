"""The sentence of a wrong screen says what a person would see first."""

import pytest

from termprobe.diagnosis.picture_words import RULES, sentence_of
from termprobe.terminal.screen import Screen

EXPECTED = ("ABCDEFGH", "IJKLMNOP", "", "abcdefgh", "ONE TWO ", "        ")


def screen(*rows, cursor=(0, 0), bells=0, width=8):
    return Screen(tuple(row.ljust(width) for row in rows), cursor, bells=bells)


def said(*rows, expected=EXPECTED):
    return sentence_of(screen(*expected), screen(*rows))


def changed(row, text):
    return [text if number == row else old for number, old in enumerate(EXPECTED)]


def turned(row, other):
    rows = list(EXPECTED)
    rows[row], rows[other] = rows[other], rows[row]
    return rows


def codes(text, change):
    return "".join(chr(change(ord(character))) for character in text)


@pytest.mark.parametrize(
    ("rows", "sentence"),
    [
        ([""] * 6, "the screen is blank"),
        (["........"] * 6, ". all over the screen"),
        (changed(3, ""), "row 3 is blank"),
        ([" BCDEFGH", " JKLMNOP", "", " bcdefgh", " NE TWO ", ""], "column 0 is blank"),
        (turned(0, 1), "rows 0 and 1 swapped"),
        (
            ["ABEDCFGH", "IJMLKNOP", "", "abedcfgh", "ONT EWO ", ""],
            "columns 2 and 4 swapped",
        ),
        (["", *EXPECTED[:5]], "everything moved one row lower"),
        ([" " + row[:7] for row in EXPECTED], "everything moved one column further right"),
        (changed(0, " ABCDEFG"), "row 0 moved one column further right"),
        (changed(3, EXPECTED[0]), "row 3 shows row 0"),
        (changed(5, "     X"), "X too many at row 5, column 5"),
        (changed(2, " XX"), "X twice too many in row 2, in columns 1 and 2"),
        (changed(0, "ABC EFGH"), "one character blank at row 0, column 3"),
        (changed(1, "IJKLMNO"), "one character blank at row 1, column 7"),
        (changed(0, "########"), "every character shown as # in row 0"),
        (
            changed(0, codes(EXPECTED[0], lambda code: code + 1)),
            "every character one code too high",
        ),
        (
            changed(0, codes(EXPECTED[0], lambda code: code | 1)),
            "every second character one code too high in row 0",
        ),
        (changed(0, "abcdefgh"), "row 0 shows row 3"),
        (changed(1, "ijklmnop"), "every character shown as small letters in row 1"),
        (changed(0, "ABCXEFGH"), "D as X at row 0, column 3"),
    ],
)
def test_what_is_seen_first_is_said(rows, sentence):
    assert said(*rows).startswith(sentence)


def test_what_follows_no_rule_is_counted_and_begun():
    expected, seen = ["AAAA", "AAAA"], ["ABCA", "AAAD"]
    assert (
        said(*seen, expected=expected)
        == "three cells differ in columns 1 to 3, first B at row 0, column 1"
    )


def test_cursor_and_bell_are_told_as_well():
    right = screen(*EXPECTED, cursor=(1, 2), bells=1)
    assert sentence_of(right, screen(*EXPECTED, cursor=(3, 4), bells=1)) == (
        "cursor at row 3, column 4"
    )
    assert sentence_of(right, screen(*EXPECTED, cursor=(1, 2))) == "the bell does not ring"
    both = screen(*changed(3, ""), cursor=(1, 2), bells=2)
    assert sentence_of(right, both) == "row 3 is blank; the bell rings twice"


def test_nothing_is_said_of_what_is_right():
    assert said(*EXPECTED) == "" and len(RULES) > 9


def test_a_cursor_that_nobody_wants_is_not_missed():
    seen = screen(*EXPECTED, cursor=(3, 4))
    assert sentence_of(screen(*EXPECTED, cursor=None), seen) == ""
