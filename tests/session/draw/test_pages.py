"""Texts page by page."""

import pytest

from helpers.bench_state import rows_of, state
from termprobe.session.draw.pages import page_of, pages_of
from termprobe.session.draw.rows import plain
from termprobe.session.mode import View
from termprobe.session.mode_table import MODES

TEXT = [plain(str(number)) for number in range(7)]


@pytest.mark.parametrize("rows, pages", [(7, 1), (8, 1), (6, 2), (3, 3), (1, 7), (0, 7)])
def test_a_text_takes_as_many_pages_as_hold_it(rows, pages):
    assert pages_of(TEXT, rows) == pages
    assert pages_of([], rows) == 1


def test_the_page_that_is_turned_to_is_shown():
    panel = page_of(lambda view: TEXT)
    shown = [rows_of(panel(View(state(page=page), 80, 3, MODES["look"]))) for page in range(3)]
    assert shown == [["0", "1", "2"], ["3", "4", "5"], ["6"]]
