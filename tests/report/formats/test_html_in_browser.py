"""The page of a report as a browser shows it: on a phone, on a desk, on paper, and to axe-core."""

import dataclasses

from helpers.cards import CARD
from helpers.chromium import looked_at, pdf_pages
from helpers.other_pages import compared_html, errata_html
from helpers.paths import RUN_FILES
from helpers.photos import photo
from helpers.reports import report, step
from helpers.whole_reports import whole_report
from termprobe.cli.recorded import load_run
from termprobe.journal.kept import KeptPhoto
from termprobe.photo.found import FoundPhoto
from termprobe.photo.picture import picture_on_page
from termprobe.plan.model import Look
from termprobe.report.card.html import card_html
from termprobe.report.formats.html import render
from termprobe.report.headline import Scope
from termprobe.report.run_notes import RunNote
from termprobe.terminal.screen import Screen

SCREEN = Screen(tuple("The quick brown fox".ljust(80) for _ in range(24)), (0, 0))
SERIOUS = ("serious", "critical")


def test_pages_fit_phone_desk_and_paper_and_shut_nobody_out(tmp_path):
    keys = load_run(RUN_FILES / "keys-quick.run.jsonl").report
    left = report(step("unanswered"), verdict="incomplete")
    practice = dataclasses.replace(
        left,
        scope=Scope(is_practice=True),
        noted=(RunNote(None, "", "U7 is hot", KeptPhoto("a.jpg")),),
        photos=(FoundPhoto(KeptPhoto("a.jpg"), picture=picture_on_page(photo((900, 600))).data),),
    )
    pages = {
        "keys": render([keys]),
        "two": render([whole_report(), whole_report("other")]),
        "left": render([practice]),
        "errata": errata_html(),
        "compared": compared_html(),
        "card": card_html(CARD),
    }
    found = looked_at(tmp_path, pages)
    assert [(one["name"], one["width"]) for one in found] == [
        (name, width) for name in pages for width in (390, 1280)
    ]
    for one in found:
        assert one["wide"] <= one["room"] and not one["torn"], one
        assert not [each for each in one["violations"] if each["impact"] in SERIOUS], one
    assert 1 <= pdf_pages(tmp_path, pages["keys"]) <= 6


def test_what_did_not_pass_is_printed_whole_though_it_is_folded(tmp_path):
    steps = [step("unsure", f"s{number}", answers=1) for number in range(8)]
    made = report(*steps, verdict="incomplete")
    looks = tuple(Look(one.id, "link", one.id, expected=SCREEN) for one in steps)
    page = render([dataclasses.replace(made, plan=dataclasses.replace(made.plan, steps=looks))])
    assert "<details open" not in page and pdf_pages(tmp_path, page) >= 4
