"""The script of few looks: what it shows, by coverage, and what it costs, on each profile."""

import pytest

from helpers.boards import changed
from helpers.scripts import ECMA, SINGLE
from termprobe.diagnosis.coverage import coverage_of
from termprobe.diagnosis.dictionary import fault_dictionary
from termprobe.plan.compile import compile_plan
from termprobe.plan.effort import effort
from termprobe.plan.model import Look
from termprobe.script.load import load

QUICK = load("quick")
MOST_LOOKS, MOST_S = 6, 35
CHARACTER_S = 10 / 9600
SMALL = changed(SINGLE, display={"rows": 16, "columns": 64})


@pytest.mark.parametrize("profile", [SINGLE, SMALL], ids=["24x80", "16x64"])
def test_it_shows_every_display_fault_that_can_be_shown_and_each_by_two_looks(profile):
    plan = compile_plan(profile, QUICK)
    found = coverage_of(fault_dictionary(profile, plan), plan, profile)
    assert found.display.missed == 0 and found.display.detected > 800
    assert found.human.twice == found.display.detected and found.shows_all_bits


@pytest.mark.parametrize("profile", [SINGLE, SMALL, ECMA], ids=["24x80", "16x64", "ecma48"])
def test_it_takes_few_looks_and_little_time(profile):
    plan = compile_plan(profile, QUICK)
    cost = effort(plan.steps, CHARACTER_S)
    assert cost.looks <= MOST_LOOKS and cost.sending_s + cost.looking_s <= MOST_S
    assert all(isinstance(step, Look) for step in plan.steps)


def test_where_there_is_no_clear_all_the_rest_is_shown():
    unfitted = [step for step in compile_plan(ECMA, QUICK).steps if step.not_fitted]
    assert [step.id for step in unfitted] == ["cleared"]
