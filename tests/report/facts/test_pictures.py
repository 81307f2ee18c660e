"""Screens of a step: as they must be, as they were seen, and what differs."""

from helpers.reports import report, step
from termprobe.journal.kept import ShownWithFaults
from termprobe.journal.records import Answer, Answered
from termprobe.plan.model import Look
from termprobe.report.facts.pictures import CellRun, fitted, screen_of
from termprobe.terminal.screen import UNKNOWN_CHARACTER, Difference, Screen

PLAN = report(step("pass")).plan
LOOK = Look("a", "link", "A", expected=Screen(("ABC",), (0, 3)))


def of(verdict, answer, **against):
    return screen_of(PLAN, LOOK, verdict, Answered("a", answer, **against))


def test_what_passed_shows_what_it_had_to():
    found = of(step("pass"), Answer("as-expected"))
    assert found.expected[0] == "ABC" + 77 * " " and len(found.expected) == 24
    assert found.cursor == (0, 3) and found.seen is None and found.differing == ()


def test_what_was_seen_is_cut_to_the_screen_and_what_differs_is_told_in_stretches():
    cells = [(0, 1), (0, 2), (0, 5), (1, 0), (0, 90), (40, 0)]
    differs = tuple(Difference(*cell, "A", "B") for cell in cells)
    seen = ("AXY  Z" + "x" * 10_000, *["w"] * 99)
    found = of(step("fail", differs=differs), Answer("differs", seen, (1, 1)))
    assert len(found.seen) == 24 and set(map(len, found.seen)) == {80}
    assert found.differing == (CellRun(0, 1, 2), CellRun(0, 5, 1), CellRun(1, 0, 1))
    assert found.marked_rows[0].rstrip() == " ^^  ^" and found.cursor_seen == (1, 1)


def test_cells_that_were_only_marked_are_blank():
    differs = (Difference(0, 0, "A", UNKNOWN_CHARACTER),)
    found = of(step("fail", differs=differs), Answer("differs", (UNKNOWN_CHARACTER + "BC",)))
    assert found.seen[0].rstrip() == " BC"


def test_a_known_fault_changes_what_had_to_be_seen():
    against = ShownWithFaults(("a/b",), ("XBC",), (0, 1))
    found = of(step("pass"), Answer("as-expected"), against=against)
    assert found.expected[0].startswith("XBC ") and found.cursor == (0, 1)


def test_rows_are_fitted():
    assert fitted(["a", "bcd"], 3, 2) == ("a ", "bc", "  ")
