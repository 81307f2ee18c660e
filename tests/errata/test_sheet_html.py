"""The sheet as a page: one file, no program in it, nothing of others taken for markup."""

import re

from helpers.batches import STEPS, cause, grouped, summary
from termprobe.errata.batch import batch_of
from termprobe.errata.origin import findings_of
from termprobe.errata.remedies import remedies_in
from termprobe.errata.sheet import sheet_of
from termprobe.errata.sheet_html import sheet_in_html

FAULT = "bank-1-data/swapped/2-3"
EVIL = "</dd><script>alert(1)</script>\x1b[2J\"'&"


def html(batch, text="remedies:\n"):
    findings = findings_of(batch)
    return sheet_in_html(sheet_of(batch, findings, remedies_in(text, "r")), batch, findings)


def test_it_has_the_items_and_a_drawing_of_the_batch():
    made = html(grouped(FAULT, ("A", 5, 5), ("B", 4, 0)))
    assert '<section id="item1" class="whole">' in made and "<dt>Remedy</dt>" in made
    assert made.count("<svg") == 2 and made.count('class="bad"') == 5
    assert re.search(r'<a href="#item1">1\. Bank', made)


def test_an_item_that_is_only_kept_says_so_first():
    made = html(batch_of([summary(1)]), "remedies:\n  - {what: a/b, remedy: x}\n")
    assert '<span class="word open">Kept</span>: not seen on any board' in made


def test_without_findings_nothing_is_drawn_but_the_yield():
    made = html(batch_of([summary(1)]))
    assert "Nothing was found" in made and made.count("<svg") == 1
    assert html(batch_of([summary(1, verdict="incomplete")])).count("<svg") == 0


def test_of_many_boards_each_revision_is_a_column():
    made = html(grouped(FAULT, ("A", 50, 3), ("B", 50, 0)))
    assert ">3 of 50</text>" in made and ">0 of 50</text>" in made


def test_whatever_came_from_elsewhere_is_text():
    runs = [
        summary(f"{EVIL}{n}", EVIL, cause(EVIL, title=EVIL, steps=STEPS), builder=EVIL, batch=EVIL)
        for n in range(5)
    ]
    made = html(
        batch_of([*runs, *(summary(n, "B") for n in range(5, 9))]),
        "remedies:\n  - {what: a, remedy: '<img src=x onerror=y>'}\n",
    )
    assert "<script" not in made and "\x1b" not in made and "<img" not in made
    assert "&lt;script&gt;" in made and "&lt;img" in made


def test_its_small_print_says_how_many_runs_were_filled_in_from_cards():
    foot = html(batch_of([summary(1, is_from_card=True), summary(2)])).partition("<footer>")[2]
    assert "<p>1 of 2 runs was filled in from a card, whole or in part.</p>" in foot
    assert "from a card" not in html(batch_of([summary(1)]))
