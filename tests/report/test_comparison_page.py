"""Two runs as text, JSON and HTML, of which nothing acts."""

import dataclasses

from helpers.reports import harmful
from termprobe.report.comparison import FieldCompared, RunComparison, StepCompared
from termprobe.report.comparison_page import comparison_html, comparison_page
from termprobe.report.facts.pictures import CellRun, ScreenFacts

SCREEN = ScreenFacts(
    80, ("A" * 80, "B" * 80), (0, 0), ("A" * 80, "B" * 78 + "XX"), (1, 2), (CellRun(1, 78, 2),)
)
STEPS = (
    StepCompared("a", "The first look", "new", "pass", "fail", SCREEN),
    StepCompared("b", "The second look", "mended", "fail", "pass"),
)
FOUND = RunComparison("1.run.jsonl", "2.run.jsonl", (FieldCompared("Board", "1", "2"),), STEPS, 3)
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
