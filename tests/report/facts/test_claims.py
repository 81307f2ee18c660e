"""What the steps that passed support, each claim with how far it goes."""

import dataclasses

import pytest

from helpers.reports import report, step
from termprobe.plan.model import Group, Look, Measure
from termprobe.profile.load import load
from termprobe.report.block_shown import BlockShown
from termprobe.report.facts.claims import Claim, claims
from termprobe.terminal.screen import Screen
from termprobe.verdict.model import AsWithFault

PROFILE = load("singlebyte-24x80")
STARS, US = (tuple([one * 80] * 24) for one in "*U")


def run(*verdicts):
    steps = (
        Look("a", "link", "A", expected=Screen(STARS, None), groups=(Group(b"\x1a**", "x"),)),
        Look("b", "link", "B", expected=Screen(US, None)),
        Measure("c", "link", "C", unit="V", low=1, high=2),
    )
    pairs = zip(verdicts, "abc", strict=True)
    made = report(*(dataclasses.replace(one, id=id_) for one, id_ in pairs))
    plan = dataclasses.replace(made.plan, steps=steps)
    return dataclasses.replace(made, plan=plan, profile=PROFILE)


def figures(made):
    return {claim.what: (claim.done, claim.of) for claim in claims(made)}


def test_each_claim_counts_what_passed_of_what_there_is():
    found = figures(run(step("pass"), step("pass"), step("fail")))
    assert found == {
        "cells held both values of each data bit": (1920, 1920),
        "characters were shown": (2, 95),
        "commands were obeyed": (1, len(PROFILE.commands)),
        "commands kept to their rule at an edge": (0, 5),
        "readings lie within their limits": (0, 1),
    }


def test_edges_are_counted_of_the_commands_that_have_one():
    made = dataclasses.replace(
        run(step("pass"), step("pass"), step("pass")), over_edges=frozenset({"left", "up"})
    )
    assert figures(made)["commands kept to their rule at an edge"] == (2, 5)


@pytest.mark.parametrize(
    "other", [step("fail"), step("unanswered"), step("pass", because=AsWithFault(("a/b",)))]
)
def test_what_failed_or_passed_only_with_a_fault_supports_nothing(other):
    found = figures(run(step("pass"), other, step("pass")))
    assert found["cells held both values of each data bit"] == (0, 1920)
    assert found["characters were shown"] == (1, 95)
    assert found["readings lie within their limits"] == (1, 1)


def test_what_the_plan_has_nothing_of_is_not_claimed():
    made = dataclasses.replace(report(step("pass")), profile=PROFILE)
    assert claims(made) == ()
    made = dataclasses.replace(made, blocks=(BlockShown("x", 1, 2), BlockShown("y", 2, 2)))
    assert [claim.figure for claim in claims(made)] == ["3 of 4, 75.0 %"]


def test_a_claim_is_a_sentence():
    told = Claim("characters were shown", 95, 95).sentence
    assert told == "95 of 95 characters were shown (100 %)"


def test_what_was_not_tried_has_no_share():
    claim = Claim("readings lie within their limits", 0, 8, is_tried=False)
    assert claim.sentence == "0 of 8 readings lie within their limits (not tried)"
    assert claim.figure == "0 of 8, not tried"


def test_a_step_that_the_plan_has_no_more_is_no_try_of_its_kind():
    made = run(*[step("pass")] * 3)
    gone = dataclasses.replace(made.verdict.steps[0], id="gone", answers=1)
    verdict = dataclasses.replace(made.verdict, steps=(gone, *made.verdict.steps))
    assert figures(dataclasses.replace(made, verdict=verdict)) == figures(made)
