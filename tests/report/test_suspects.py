"""What would explain a run, as a page and as a document."""

import dataclasses

import pytest

from helpers.scripts import SINGLE, look, plan_of
from termprobe.diagnosis.key_conclusion import Suspect
from termprobe.diagnosis.model import Diagnosis
from termprobe.diagnosis.pairs import SuspectPair
from termprobe.diagnosis.probing import probe_of
from termprobe.diagnosis.ranking import BlockShare
from termprobe.diagnosis.why_next import WhyNext
from termprobe.report.suspects import (
    CAUTION,
    INFERRED,
    cause_in_words,
    diagnosis_document,
    suspect_lines,
    symptom_lines,
)

PLAN = plan_of([look("stars", [{"text": "*"}]), look("word", [{"text": "HELLO"}])])
NAME = "bank-0-data/stuck/3/0"
SUSPECT = Suspect((NAME,), "data line 3 is stuck at 0", "bank-0-data", 0.934, ("stars",), ())
OTHER = Suspect(("a", "b"), "another", "decoder", 0.05, (), ("stars", "word"))
FOUND = Diagnosis(
    "fail",
    True,
    (SUSPECT, OTHER),
    (BlockShare("bank-0-data", 0.934), BlockShare("decoder", 0.05)),
    "word",
    (probe_of(NAME, SINGLE)._replace(step="stars"),),
)


def page(found):
    return " ".join(" ".join(suspect_lines(found, PLAN)).split())


def test_the_page_tells_suspects_blocks_what_to_probe_and_what_to_try_next():
    text = page(FOUND)
    assert text.startswith("What would explain it 93% data line 3 is stuck at 0")
    assert f"bank-0-data: {NAME} for: stars" in text and "against: stars, word" in text
    assert "Blocks: bank-0-data 93%, decoder 5%" in text
    assert "Probe: data line 3 of RAM bank 0, while stars is sent over and over" in text
    assert "Look first at the solder joints" in text and CAUTION in text and INFERRED in text
    assert text.endswith("Next: word would tell most: word")


@pytest.mark.parametrize(
    ("why", "told"),
    [
        (WhyNext.TELLS_MOST_AGAIN, "once more would tell most"),
        (WhyNext.HANGS, "once more, for the cause hangs on that one answer"),
        (WhyNext.AGAINST, "once more, for that answer alone stands against the first cause"),
    ],
)
def test_a_look_that_was_answered_is_to_be_looked_at_once_more(why, told):
    again = dataclasses.replace(FOUND, why_next=why)
    assert page(again).endswith(f"Next: word {told}: word")


def test_lines_are_no_longer_than_a_page():
    assert all(len(line) <= 80 for line in suspect_lines(FOUND, PLAN))


def test_what_no_single_fault_explains_says_so_first():
    pair = SuspectPair(
        (NAME, "decoder/dead/up"), ("one", "other"), ("bank-0-data", "decoder"), True
    )
    found = Diagnosis("fail", False, (SUSPECT,), pairs=(pair,))
    text = page(found)
    assert text.startswith("Suspects: no single fault that is modelled explains all")
    assert "Two faults together would explain it: one, and other" in text
    assert cause_in_words(found).startswith("No single modelled fault explains all of it")


def test_what_would_be_told_of_as_0_percent_is_counted_alone():
    least = dataclasses.replace(SUSPECT, title="the least", probability=0.004)
    text = page(dataclasses.replace(FOUND, suspects=(SUSPECT, least)))
    assert "the least" not in text and "and 1 less probable" in text
    assert "0% the least" in page(dataclasses.replace(FOUND, suspects=(least,)))


def test_nothing_to_explain():
    assert symptom_lines(Diagnosis("pass", True)) == [
        "Nothing to explain: no answer is other than a good board's."
    ]
    assert symptom_lines(Diagnosis("fail", False))[0].startswith("Suspects: none.")
    assert cause_in_words(None) == cause_in_words(Diagnosis("pass", True)) == ""


def test_one_line_tells_the_cause():
    assert cause_in_words(FOUND) == "What would explain it (93%): data line 3 is stuck at 0"


def test_the_document():
    document = diagnosis_document(FOUND)
    assert list(document) == ["verdict", "explained", "suspects", "blocks", "next", "pairs"]
    assert document["suspects"][0] == {
        "class": [NAME],
        "title": "data line 3 is stuck at 0",
        "block": "bank-0-data",
        "probability": 0.934,
    }
    assert document["blocks"][1] == {"block": "decoder", "probability": 0.05}
    assert document["next"] == "word" and document["explained"] is True
