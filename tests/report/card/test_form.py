"""The empty form: it can be filled in, and every number of the card is on it."""

from helpers.cards import CARD, ITEMS
from termprobe.findings import Findings
from termprobe.observer.card_form import OF_BOARD, form_of
from termprobe.report.card.form import PLACES, card_form


def test_the_form_has_a_line_for_each_item_and_says_nothing_yet():
    text = card_form(CARD, "p", "s.yaml", ["keys", "screen"])
    findings = Findings("f")
    form = form_of(text, findings)
    assert form.entries == () and form.notes == ()
    assert {name: one.text for name, one in form.heads.items()} == {
        "profile": "p",
        "script": "s.yaml",
        "stages": "keys, screen",
        "plan": "f" * 12,
    }
    assert len(findings) == 2  # board and date are to be filled in
    lines = text.split("\n")
    assert [line for line in lines if line.rstrip(":") in {item.number for item in ITEMS}] == [
        f"{item.number}:" for item in ITEMS
    ]
    assert PLACES == OF_BOARD and "\x1b" not in text
