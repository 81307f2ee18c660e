"""A card as a page: one file, nothing in it acts, and nothing needs grey."""

import re

import html5lib

from helpers.cards import CARD, HOSTILE
from termprobe.report.card import words
from termprobe.report.card.html import card_html

PAGE = card_html(CARD)


def test_it_is_html_and_every_item_has_its_boxes_and_its_screen():
    html5lib.HTMLParser(strict=True).parse(PAGE)
    assert PAGE.count('class="item"') == 7 and PAGE.count('class="room"') == 7
    assert PAGE.count('<svg class="screen"') == 2
    assert PAGE.count('class="box"') == 6 * 3 + 1 + 3 * 3
    assert re.search(r"<text y=9[^>]*>HELLO</text>", PAGE)
    assert ">23</text>" in PAGE and ">70</text>" in PAGE  # rows and columns are numbered
    assert PAGE.index(words.CAUTIONS) < PAGE.index(words.HOW)


def test_nothing_that_a_script_says_is_markup_and_nothing_is_loaded():
    assert HOSTILE not in PAGE and "<script" not in PAGE and "\x1b" not in PAGE
    assert "&lt;script&gt;alert(1)&lt;/script&gt; \\x1b[2J" in PAGE
    assert "http" not in PAGE.replace("http-equiv", "")


def test_it_is_black_on_white():
    own = PAGE.split("Black on white")[1].split("</style>")[0]
    assert set(re.findall(r"#[0-9a-f]{6}", own)) == {"#ffffff", "#000000"}
