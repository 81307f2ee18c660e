"""The sheet as Markdown: nothing in it acts, whoever wrote it."""

from helpers.batches import cause, grouped, summary
from termprobe.errata.batch import batch_of
from termprobe.errata.origin import findings_of
from termprobe.errata.sheet import sheet_of
from termprobe.errata.sheet_markdown import sheet_in_markdown

FAULT = "bank-1-data/swapped/2-3"
EVIL = "<b onclick=x>[a](javascript:1)\x1b[2J\n# x"


def text(batch):
    return sheet_in_markdown(sheet_of(batch, findings_of(batch)))


def test_each_item_tells_symptom_revisions_cause_remedy_and_check():
    lines = text(grouped(FAULT, ("A", 5, 5), ("B", 4, 0))).splitlines()
    assert lines[:4] == [
        "# Errata",
        "",
        "Made from the runs of 9 boards; revisions: A, B.",
        "",
    ]
    names = [line.split("**")[1] for line in lines if line.startswith("- **")]
    assert names == [
        "Symptom:",
        "Affected revisions:",
        "Cause:",
        "Remedy:",
        "How to check:",
        "Evidence:",
        "Name:",
    ]


def test_a_sheet_with_nothing_says_so():
    assert "Nothing was found that goes with the layout." in text(batch_of([summary(1)]))


def test_markup_is_shown_and_not_followed():
    runs = [summary(n, EVIL, cause(EVIL, title=EVIL)) for n in range(5)]
    made = text(batch_of([*runs, *(summary(n, "B") for n in range(5, 9))]))
    assert "<b" not in made.replace("\\<b", "") and "\x1b" not in made and "\n# x" not in made


def test_its_last_line_says_how_many_runs_were_filled_in_from_cards():
    batch = batch_of([summary(1, is_from_card=True), summary(2)])
    last = text(batch).splitlines()[-2:]
    assert last == ["", "1 of 2 runs was filled in from a card, whole or in part."]
    assert "from a card" not in text(batch_of([summary(1), summary(2)]))
