"""A card as Markdown: what came from a profile or a script is never markup."""

from markdown_it import MarkdownIt

from helpers.cards import CARD
from termprobe.report.card.markdown import card_markdown


def test_it_reads_as_headings_tables_and_boxes_and_nothing_acts():
    text = card_markdown(CARD)
    page = MarkdownIt("commonmark").enable("table").render(text)
    assert page.startswith("<h1>Test card: Acceptance of a made-up board</h1>")
    assert page.count("<h3>") == 7 and page.count("☐ as expected") == 6
    assert page.count("<tr>") == 1 + 6 + 1 + 4 + 1 + 3
    assert "<script" not in page and "\x1b" not in page
    assert " 0|HELLO" in page
