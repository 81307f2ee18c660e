"""Stages with what is to be told of their steps; alike presses are a number."""

import dataclasses

from helpers.bench_plan import step as made_step
from helpers.reports import report, step
from termprobe.report.facts.cause_lines import CauseLine
from termprobe.report.facts.stages import not_there, stages
from termprobe.report.run_notes import RunNote
from termprobe.verdict.model import Pressed, Unfitted
from termprobe.verdict.noticed import Missing, Rate, Right

RIGHT = Pressed((Right(b"q"),), Rate(1, 1))
WRONG = Pressed((Missing(b"q"),), Rate(0, 1))


def test_one_stuck_code_line_is_two_numbers_and_one_press():
    verdicts = [step("fail", f"press/{n}", because=WRONG) for n in range(200)]
    verdicts += [step("pass", f"press/{n}", because=RIGHT) for n in range(200, 275)]
    made = report(*verdicts)
    plan = dataclasses.replace(
        made.plan, steps=tuple(made_step(one.id, "link", "press") for one in verdicts)
    )
    cause = CauseLine("line 3", tuple(one.id for one in verdicts[:200]), "mend it", "a/b")
    (found,) = stages(dataclasses.replace(made, plan=plan), (cause,), None)
    assert (found.right_presses, found.explained_presses) == (75, 199)
    assert [one.id for one in found.steps] == ["press/0"] and found.explained == ()


def test_what_was_not_tried_is_no_step_of_a_stage_unless_something_was_noted():
    steps = [step("pass"), step("unanswered", "u"), step("not-fitted", "n", because=Unfitted("x"))]
    made = report(*steps)
    (found,) = stages(made, (), None)
    assert [one.id for one in found.steps] == ["a"] and found.totals == "1 pass, 1 unanswered"
    made = dataclasses.replace(made, noted=(RunNote("u", "", "no meter"),))
    (found,) = stages(made, (), None)
    assert [one.id for one in found.steps] == ["a", "u"]


def test_looks_that_a_cause_explains_are_told_so_but_for_the_first():
    made = report(*(step("fail", name) for name in "abc"))
    (found,) = stages(made, (CauseLine("x", ("a", "b"), "", "f"),), None)
    assert [one.id for one in found.steps] == ["a", "b", "c"] and found.explained == ("b",)


def test_what_is_not_there_is_one_line():
    lacking = step("not-fitted", "n", stage="looks", because=Unfitted("x"))
    made = report(step("pass"), lacking)
    assert not_there(made.plan, made.verdict) == (
        "1 step of the script tries what this terminal does not have: Looks"
    )
    assert not_there(made.plan, report(step("pass")).verdict) == ""
