"""No text of a report is longer than a page can hold."""

from termprobe.report.facts.clipping import MOST, clipped, clipped_text
from termprobe.report.facts.first_page import NamedText
from termprobe.report.facts.notes import NoteFacts
from termprobe.report.facts.steps import StepFacts


def test_a_long_text_says_how_much_of_it_is_left_out():
    assert clipped_text("x" * 12, 10) == "x" * 10 + " … and 2 characters more"
    assert clipped_text("x" * 10, 10) == "x" * 10


def test_every_text_in_records_and_tuples_is_clipped_and_all_else_stays():
    long = "y" * 10_000_000
    step = StepFacts(
        "a", long, "pass", "good", evidence=(long, "b"), notes=(NoteFacts("", "", long),)
    )
    found = clipped((NamedText("n", long), step, 3, None, True))
    assert found[0].name == "n" and found[2:] == (3, None, True)
    for text in (found[0].text, found[1].title, found[1].evidence[0], found[1].notes[0].text):
        assert text.startswith("y" * MOST + " … and 9,998,000 characters more")
    assert found[1].evidence[1] == "b"
