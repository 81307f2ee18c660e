"""Two runs as text, JSON and HTML, of which nothing acts."""

import dataclasses

from helpers.reports import harmful
from termprobe.report.comparison import (
    FieldCompared,
    PhotosCompared,
    RunComparison,
    StepCompared,
)
from termprobe.report.comparison_page import comparison_html, comparison_page
from termprobe.report.facts.notes import NoteFacts, PhotoFacts
from termprobe.report.facts.pictures import CellRun, ScreenFacts

SCREEN = ScreenFacts(
    80, ("A" * 80, "B" * 80), (0, 0), ("A" * 80, "B" * 78 + "XX"), (1, 2), (CellRun(1, 78, 2),)
)
STEPS = (
    StepCompared("a", "The first look", "new", "pass", "fail", SCREEN),
    StepCompared("b", "The second look", "mended", "fail", "pass"),
)
FOUND = RunComparison("1.run.jsonl", "2.run.jsonl", (FieldCompared("Board", "1", "2"),), STEPS, 3)
PHOTO = PhotoFacts("2-photo-1.jpg", "", "0" * 64, 3000, 900, 600)
NOTE = NoteFacts("3 July 2026, 18:51", "The first look", "U33 is hot", PHOTO)
WITH_PHOTO = dataclasses.replace(FOUND, photos=(PhotosCompared("The first look", (), (NOTE,)),))
EVIL = "<script>alert(1)</script>\x1b[2J"


def test_the_text_tells_what_got_worse_first_with_the_part_of_the_row_that_differs():
    lines = comparison_page(FOUND).splitlines()
    assert lines[:4] == [
        "First   1.run.jsonl",
        "Second  2.run.jsonl",
        "1 passed in the first, FAILS in the second; 1 failed in the first, pass in the",
        "second; 3 are the same.",
    ]
    assert "  Board     1 -> 2" in lines
    first = lines.index("  a: The first look (pass -> fail)")
    assert lines[first + 1 : first + 6] == [
        "    row 1, from column 20",
        f"      first  |{'B' * 60}|",
        f"      second |{'B' * 58}XX|",
        f"              {' ' * 58}^^",
        "    cursor (0, 0) -> (1, 2) (row, column, from 0)",
    ]
    assert max(map(len, lines)) <= 80


def test_of_many_rows_the_first_are_shown():
    runs = tuple(CellRun(row, 0, 1) for row in range(24))
    screen = ScreenFacts(8, ("A" * 8,) * 24, None, ("X" + "A" * 7,) * 24, None, runs)
    step = dataclasses.replace(STEPS[0], screen=screen)
    assert "    and in 21 more rows" in comparison_page(dataclasses.replace(FOUND, steps=(step,)))


def test_where_nothing_has_changed_that_is_said():
    same = RunComparison("1", "2", (), (), 9)
    assert "Nothing has changed: 9 steps have the same verdict." in comparison_page(same)


def test_the_page_has_the_screens_side_by_side():
    html = comparison_html(FOUND)
    assert html.count("<svg") == 2 and 'class="verdict bad"' in html
    assert html.count('class="pair"') == 1
    ids = [part.split('"')[0] for part in html.split(' id="')[1:]]
    assert len(ids) == len(set(ids))


def test_photos_stand_side_by_side_at_their_step():
    html = comparison_html(WITH_PHOTO, ({}, {PHOTO.name: "QUJD"}))
    assert 'href="#photos"' in html and "<p>First: no photo</p>" in html
    assert 'src="data:image/jpeg;base64,QUJD" alt="Photo at The first look: U33 is hot"' in html
    assert "<p>Second, 3 July 2026, 18:51: U33 is hot; photo 2-photo-1.jpg</p>" in html
    assert html.count("<figcaption>2-photo-1.jpg: 900 × 600 pixels") == 1
    assert "<img" not in comparison_html(WITH_PHOTO) and "photos" not in comparison_html(FOUND)


def test_the_text_names_each_photo_with_its_note():
    lines = comparison_page(WITH_PHOTO).splitlines()
    assert lines[lines.index("Photos") + 1 :] == [
        "  The first look",
        "    second: 3 July 2026, 18:51: U33 is hot; photo 2-photo-1.jpg",
    ]
    evil = NOTE._replace(text=EVIL, photo=PHOTO._replace(name=EVIL, trouble=EVIL))
    found = dataclasses.replace(FOUND, photos=(PhotosCompared(EVIL, (evil,), (evil,)),))
    html = comparison_html(found, ({EVIL: EVIL}, {}))
    assert harmful(comparison_page(found)) == [] and "<script" not in html and "\x1b" not in html


def test_nothing_of_others_acts():
    evil = RunComparison(
        EVIL,
        EVIL,
        (FieldCompared(EVIL, EVIL, EVIL),),
        (
            StepCompared(
                EVIL,
                EVIL,
                "new",
                "pass",
                "fail",
                dataclasses.replace(SCREEN, expected=(EVIL.ljust(80),) * 2),
            ),
        ),
        1,
    )
    html = comparison_html(evil)
    assert "<script" not in html and "\x1b" not in html
    assert harmful(comparison_page(evil)) == []
