"""The page of HTML: whole, small, and readable without anything from elsewhere."""

import dataclasses

import html5lib
import pytest

from helpers.reports import report, step
from helpers.whole_reports import whole_report
from termprobe.journal.records import Answer, Answered
from termprobe.plan.model import Look
from termprobe.report.formats.html import render
from termprobe.terminal.screen import Screen, differences
from termprobe.verdict.model import Differing

SVG = "{http://www.w3.org/2000/svg}"
WHOLE = render([whole_report()])
CHART = "".join(map(chr, range(33, 127))) * 3
ROWS = tuple(CHART[7 * row : 7 * row + 80] for row in range(24))
SEEN = tuple("".join(chr(ord(one) | 8) for one in row) for row in ROWS)
CELLS = differences(ROWS, SEEN)
"""With one bit stuck half of all cells differ."""


def parsed(text):
    return html5lib.HTMLParser(namespaceHTMLElements=False).parse(text)


def test_it_is_html_without_a_mistake_and_asks_for_nothing_from_elsewhere():
    parser = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False)
    page = parser.parse(WHOLE)
    assert not {"script", "link", "iframe", "object", "img"} & {one.tag for one in page.iter()}
    addresses = [one.get(name) for one in page.iter() for name in ("src", "href", "data")]
    assert all(address.startswith("#") for address in addresses if address)


def test_each_entry_of_the_contents_leads_to_a_section_with_its_heading():
    page = parsed(WHOLE)
    sections = {one.get("id"): one for one in page.iter("section")}
    links = {one.get("href")[1:]: one.text for one in page.iter("a")}
    assert {name: one.findtext("h2") for name, one in sections.items()} == links
    assert len(links) >= 9


def test_the_first_words_are_the_verdict_and_the_board_is_named():
    page = parsed(WHOLE)
    assert "".join(page.find("body/header/div/h1").itertext()).startswith("FAIL: board plain")
    names = [one.text for one in page.iter("dt")]
    assert names[:4] == ["Board", "Revision", "Builder", "Terminal"] and "SHA-256" in names


def test_screens_are_drawn_with_text_that_can_be_selected():
    page = parsed(WHOLE)
    drawings = list(page.iter(f"{SVG}svg"))
    screens = [one for one in drawings if one.get("class") == "screen"]
    assert [one.findtext(f".//{SVG}text") for one in screens] == ["HELLO", "HGLLO"]
    assert screens[1].find(f"{SVG}g/{SVG}path").get("d") == "M1 0h1"
    assert all(one.get("aria-label") for one in drawings)


def test_of_several_runs_each_is_linked_and_has_a_part_of_its_own():
    page = parsed(render([whole_report(), report(step("pass"), verdict="pass")]))
    assert [one.get("id") for one in page.iter("article")] == ["run1", "run2"]
    assert page.findtext("head/title") == "2 runs of termprobe"


def sixty(*verdicts):
    """Return the page of sixty looks at full screens that have these verdicts in turn."""
    steps = [
        step(verdicts[number % len(verdicts)], f"s{number}", answers=1) for number in range(60)
    ]
    made = report(*(_told(one) for one in steps))
    looks = tuple(Look(one.id, "link", "A", expected=Screen(ROWS, None)) for one in steps)
    records = tuple(Answered(one.id, Answer("differs", SEEN, observer="dump")) for one in steps)
    plan = dataclasses.replace(made.plan, steps=looks)
    return render([dataclasses.replace(made, plan=plan, records=records)])


def _told(one):
    if one.verdict != "fail":
        return one
    return dataclasses.replace(one, differs=CELLS, because=Differing(len(CELLS)))


@pytest.mark.parametrize("verdict, screens", [("pass", 60), ("fail", 120)])
def test_sixty_screens_stay_below_half_a_megabyte(verdict, screens):
    page = sixty(verdict)
    assert page.count('<svg class="screen"') == screens and len(page.encode()) < 500_000
