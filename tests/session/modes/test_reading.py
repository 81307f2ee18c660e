"""The report is read, page by page."""

from helpers.bench_state import after, console, state
from termprobe.session.draw.console_rows import paged

REPORT = "PASS: board 0007\n" + "\n".join(f"line {number}" for number in range(40))
MADE = after(state(None, "ended", report=REPORT), "r")


def test_a_report_has_pages():
    assert "line 3" in console(MADE, 80, 24) and "line 39" not in console(MADE, 80, 24)
    further = after(paged(MADE, 80, 24), "down")
    further = after(paged(further, 80, 24), "down")
    assert "line 39" in console(further, 80, 24)
    assert "line 3\n" in console(after(paged(MADE, 80, 24), "left"), 80, 24)


def test_a_line_that_is_too_long_is_folded():
    wide = "word " * 30 + "end"
    shown = console(after(state(None, "ended", report=wide), "r"), 80, 24)
    assert "end" in shown and "word word" in shown


def test_it_leads_back_to_the_end():
    for key in ("r", "q", "escape", "enter"):
        assert after(MADE, key).mode == "ended"
