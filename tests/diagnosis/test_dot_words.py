"""How wrong dots are said, by what boards with each kind of fault draw."""

import pytest

from helpers.boards import PROFILE, faulty
from termprobe.diagnosis.dot_words import dots_sentence
from termprobe.terminal.dots import dots_in_words

BOX = PROFILE.display.dots
TEXT = bytes(range(0x21, 0x7F))


def said(fault, text=TEXT):
    board = faulty(fault)
    board.receive(text)
    return dots_sentence(board.screen().misdrawn, BOX)


@pytest.mark.parametrize(
    "fault, sentence",
    [
        ("dot-column/missing/2", "the third column of dots is missing"),
        ("dot-column/stuck/0/1", "the first column of dots is always lit"),
        ("dot-column/swapped/1-3", "the second and fourth columns of dots are swapped"),
        ("shift-register/stuck/3/0", "all from the fourth column of dots on is missing"),
        ("shift-register/stuck/1/1", "all from the second column of dots on is always lit"),
        ("shift-register/stuck/0/0", "no character has a dot: the screen is dark"),
        ("dots/half", "every second row of dots is missing"),
        ("row-scan/stuck/2/0", "the upper half of each character is drawn twice"),
        (
            "row-scan/stuck/0/0",
            "rows of dots repeated or moved: the second row of dots is like the first",
        ),
        ("cursor/dead", "the cursor is not to be seen"),
        (
            "blanking/stuck",
            "no character has a dot: the screen is dark; the cursor is not to be seen",
        ),
        ("glyph-cell/stuck/65-3-2/1", "A is drawn with wrong dots"),
    ],
)
def test_each_kind_of_fault_has_a_sentence_of_its_own(fault, sentence):
    assert said(fault) == sentence


@pytest.mark.parametrize("fault", ["dot-column/bridged/0-4/low", "row-scan/bridged/0-2/high"])
def test_what_no_rule_says_is_counted_or_said_by_its_rows(fault):
    assert "characters are drawn with wrong dots" in said(fault) or "rows of dots" in said(fault)


def test_without_a_box_the_characters_are_counted():
    misdrawn = (("A", "#"), ("B", "#"))
    assert dots_sentence(misdrawn, None) == "; ".join(dots_in_words(misdrawn))
    assert dots_sentence((), BOX) == ""
