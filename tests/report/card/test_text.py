"""A card as plain text, with the sentences of words.py."""

from helpers.cards import CARD
from termprobe.report.card import words
from termprobe.report.card.text import COLUMNS, card_text

TEXT = card_text(CARD)


def test_cautions_come_first_and_each_item_has_boxes_and_room():
    order = [TEXT.index(word) for word in (words.BLANKS[0], words.CAUTIONS, words.HOW, "V1. ")]
    assert order == sorted(order)
    assert TEXT.count("[ ] as expected   [ ] differs   [ ] not tried") == 6
    assert TEXT.count("Reading, with its unit: ____") == 1
    assert TEXT.count("Note: ____") == 7
    assert "SWITCH OFF AT ONCE if the regulator gets hot." in TEXT
    assert "\nK2    " in TEXT and "It takes a computer on the line: A plug;" in TEXT


def test_lines_are_short_and_no_control_character_is_raw():
    assert max(map(len, TEXT.split("\n"))) <= COLUMNS
    assert "\x1b" not in TEXT and "\\x1b[2J" in TEXT
