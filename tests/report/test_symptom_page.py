"""What is not modelled, as a page and as data."""

from termprobe.diagnosis.key_conclusion import Suspect
from termprobe.diagnosis.model import Diagnosis
from termprobe.diagnosis.unmodelled import OF_TUBE, unmodelled_in
from termprobe.report.suspects import CAUTION, symptom_lines
from termprobe.report.symptom_page import symptom_document, symptom_page

ROLLING, DOUBLED = unmodelled_in("rolling"), unmodelled_in("doubled letters")
SUSPECT = Suspect(("a",), "line 3 is stuck at 0", "bank-0-data", 0.9, ("text 1",), ())


def page(*symptoms, suspects=()):
    found = Diagnosis("fail", False, suspects, unmodelled=symptoms)
    lines = symptom_page(found)
    assert all(len(line) <= 80 for line in lines)
    return " ".join(" ".join(lines).split())


def test_cautions_come_before_what_to_look_at():
    text = page(ROLLING)
    assert text.startswith("The picture rolls up or down, or does not lock. No simulated fault")
    order = [text.index(words) for words in (OF_TUBE, CAUTION, "in this order", "1. the vertical")]
    assert order == sorted(order) and "Suspects" not in text


def test_each_caution_is_told_once():
    assert page(ROLLING, unmodelled_in("dim")).count(OF_TUBE) == 1
    assert CAUTION not in page(DOUBLED) and "--keys" in page(DOUBLED)


def test_suspects_of_the_rest_follow():
    assert page(ROLLING, suspects=(SUSPECT,)).index("1. the vertical") < page(
        ROLLING, suspects=(SUSPECT,)
    ).index("line 3 is stuck at 0")
    alone = Diagnosis("fail", True, (SUSPECT,))
    assert symptom_page(alone) == symptom_lines(alone)


def test_the_document():
    told = symptom_document(Diagnosis("fail", False, unmodelled=(ROLLING,)))
    (one,) = told["not_modelled"]
    assert one["name"] == "rolling picture" and one["look_first"] == list(ROLLING.look_first)
    assert one["cautions"][-1] == CAUTION and one["source"]
    assert symptom_document(Diagnosis("pass", True))["not_modelled"] == []
