"""Rows and differences of a screen, as short as a drawing can have them."""

import html5lib

from termprobe.report.drawn import drawn_path, drawn_row
from termprobe.report.facts.pictures import CellRun


def test_a_row_is_text_that_nothing_in_it_can_end_with_one_character_a_cell():
    row = "<b>&amp;\"'</text><script>\x1b\x7f\u202e]]>"
    drawn = drawn_row(row)
    page = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(
        f"<!DOCTYPE html><title>x</title><svg><text>{drawn}</text></svg>"
    )
    (text,) = [one for one in page.iter() if one.tag.endswith("text")]
    assert text.text == "<b>&amp;\"'</text><script>???]]>" and not len(text)
    assert '"' in drawn and "&#" not in drawn


def test_cells_that_differ_are_drawn_from_one_to_the_next():
    runs = (CellRun(0, 3, 2), CellRun(0, 7, 1), CellRun(12, 40, 8), CellRun(12, 60, 1))
    assert drawn_path(runs) == "M3 0h2m2 0h1M40 12h8m12 0h1"
    assert drawn_path(()) == ""
