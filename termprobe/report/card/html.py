"""A card as one page of HTML, made for paper of either size and for printers without grey."""

from termprobe.report.card import words
from termprobe.report.card.facts import Card
from termprobe.report.pages import page

TEMPLATE_OF_CARD = "card.html"


def card_html(card: Card) -> str:
    """Return the page."""
    return page(TEMPLATE_OF_CARD, card=card, words=words, contents=[])
