"""One line for each cause, with where it lies and what to do next."""

import dataclasses

import pytest

from helpers.bench_plan import step as made_step
from helpers.reports import report, step
from helpers.whole_reports import whole_report
from termprobe.diagnosis.key_conclusion import Conclusion, Suspect
from termprobe.diagnosis.model import Diagnosis
from termprobe.diagnosis.probing import Probing
from termprobe.plan.model import Measure
from termprobe.profile.load import load
from termprobe.report.facts.cause_lines import MEND_FIRST, cause_lines
from termprobe.report.key_findings import KeyFindings
from termprobe.verdict.model import Differing, LineFound, Measured, Pressed
from termprobe.verdict.noticed import Missing, Rate

KEYBOARD = load("singlebyte-24x80").keyboard
ROW = Suspect(("key-matrix/row-open/2",), "Row 2 is open", "key-matrix", 0.9, ("q", "w"), ())


def test_a_suspect_is_told_with_line_odds_and_where_to_look():
    first, other = cause_lines(whole_report())
    assert (first.title, first.fault, first.steps) == ("plain", "a/b", ("look",))
    assert (first.count, first.percent) == ("1 step", "97 %")
    assert first.probe == "plain: plain" and first.next == "look first at plain"
    assert other.steps == ("other",) and other.title.startswith("A step") and not other.fault


def test_a_suspect_that_is_not_sure_is_not_told_as_the_cause():
    made = whole_report()
    (suspect,) = made.diagnosis.suspects
    unsure = dataclasses.replace(suspect, probability=0.59)
    found = dataclasses.replace(made.diagnosis, suspects=(unsure,))
    alone = cause_lines(dataclasses.replace(made, diagnosis=found))
    assert [cause.fault for cause in alone] == ["", ""]
    both = dataclasses.replace(unsure, supports=("look", "other"))
    found = dataclasses.replace(made.diagnosis, suspects=(both,))
    (together,) = cause_lines(dataclasses.replace(made, diagnosis=found))
    assert (together.title, together.percent) == ("likeliest of several: plain", "59 %")


def test_of_very_many_faults_that_look_the_same_none_is_mended_yet():
    made = whole_report()
    (suspect,) = made.diagnosis.suspects
    many = dataclasses.replace(suspect, faults=tuple(f"a/{number}" for number in range(9)))
    found = dataclasses.replace(made.diagnosis, suspects=(many,), next="other")
    first, _ = cause_lines(dataclasses.replace(made, diagnosis=found))
    assert first.next == 'tell them apart: "Other" would tell most'


def test_what_is_not_explained_is_asked_again_once_the_rest_is_mended():
    made = whole_report()
    steps = [dataclasses.replace(one, because=Differing(3)) for one in made.verdict.steps]
    made = dataclasses.replace(made, verdict=dataclasses.replace(made.verdict, steps=tuple(steps)))
    assert [cause.next for cause in cause_lines(made)][1:] == [MEND_FIRST]


def test_presses_of_one_fault_are_one_cause():
    missing = Pressed((Missing(b"q"),), Rate(0, 1))
    names = ("q", "w", "e")
    made = report(*(step("fail", f"press/{name}", because=missing) for name in names))
    presses = tuple(made_step(f"press/{name}", "link", "press") for name in names)
    plan = dataclasses.replace(made.plan, steps=presses)
    supports = tuple(one.press.id for one in presses[:2])
    conclusion = Conclusion(True, False, (dataclasses.replace(ROW, supports=supports),))
    keys = KeyFindings(KEYBOARD, conclusion, (Probing("row 2", "low", "the joints"),))
    found = cause_lines(dataclasses.replace(made, plan=plan, keys=keys))
    assert found[0].steps == ("press/q", "press/w") and found[0].title == "Row 2 is open"
    assert found[0].next == "look first at the joints" and found[1].steps == ("press/e",)


def test_a_cause_that_looks_and_presses_tell_of_is_one():
    missing, names = Pressed((Missing(b"q"),), Rate(0, 1)), ("q", "w")
    made = report(
        *(step("fail", f"press/{name}", because=missing) for name in names), step("fail", "typed")
    )
    steps = (
        *(made_step(f"press/{name}", "link", "press") for name in names),
        made_step("typed", "link", "reply"),
    )
    supports = tuple(one.press.id for one in steps[:2])
    of_keys = dataclasses.replace(ROW, supports=supports)
    of_all = dataclasses.replace(ROW, supports=(*supports, "typed", "press/w"))
    keys = KeyFindings(KEYBOARD, Conclusion(True, False, (of_keys,)))
    diagnosis = Diagnosis("fail", True, (of_all,))
    plan = dataclasses.replace(made.plan, steps=steps)
    (found,) = cause_lines(dataclasses.replace(made, plan=plan, keys=keys, diagnosis=diagnosis))
    assert found.steps == ("press/q", "press/w", "typed") and found.title == "Row 2 is open"


@pytest.mark.parametrize(
    "because, words",
    [
        (LineFound("no carrier"), "cable, adapter and settings"),
        (Differing(3), "mark the cells that differ"),
        (Measured(5.5, "V", "5 V", False), "switch off when it smokes"),
        (None, "answer the step again"),
    ],
)
def test_each_kind_of_failure_says_what_to_do_next(because, words):
    made = report(step("fail", because=because))
    if isinstance(because, Measured):
        measure = Measure("a", "link", "A", unit="V", low=4, high=5, stop_if="it smokes")
        made = dataclasses.replace(made, plan=dataclasses.replace(made.plan, steps=(measure,)))
    (found,) = cause_lines(made)
    assert words in found.next
