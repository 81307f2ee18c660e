"""Which look is asked next so that no single slip decides: a new one, or one answered once more."""

import math
import random
from dataclasses import replace

import pytest

from helpers.dictionaries import of_acceptance
from helpers.scripts import SINGLE, acceptance
from helpers.virtual_builders import Eyes, Reader, looks_to_play, records_of
from termprobe.diagnosis.confirming import Doubt, closed, confirming_look
from termprobe.diagnosis.diagnose import all_accounts, case_of
from termprobe.diagnosis.look_outlooks import Candidate
from termprobe.journal.asked_again import AskedAgain
from termprobe.journal.records import DIFFERS, Answer, Answered
from termprobe.verdict.judge import judge
from tests.builders.person import REGIONS, Person, one_lie
from tests.builders.sitting import played

PLAN = acceptance()
STUCK = "bank-0-data/stuck/2/0"


def answered(observer, names=(STUCK,), looks=None):
    chosen = [one for one in looks_to_play(PLAN) if looks is None or one.id in looks]
    return records_of(SINGLE, PLAN, names, observer, chosen)


def confirming(records, can_go_on=True):
    """Return the look that confirms; only one that was answered, where the run cannot go on."""
    verdict = judge(PLAN, records)
    case = case_of(SINGLE, PLAN, records, verdict)
    healthy = case.of_nothing()
    accounts = all_accounts(case, healthy, of_acceptance())
    if not can_go_on:
        steps = tuple(one for one in verdict.steps if one.answers)
        verdict = replace(verdict, steps=steps)
    return confirming_look(case, healthy, accounts, verdict, of_acceptance())


def test_a_look_that_was_not_asked_confirms_more_than_the_same_once_more():
    records = answered(Eyes(1), looks=("solid-2a", "up"))
    assert confirming(records) not in ("solid-2a", "up", None)
    assert confirming(records, can_go_on=False) in ("solid-2a", "up")


def test_what_was_said_twice_is_no_single_slip():
    records = answered(Eyes(1), names=("decoder/dead/up",), looks=("up",))
    assert confirming(records, can_go_on=False) == "up"
    records += [AskedAgain("up"), Answered("up", Answer(DIFFERS), PLAN.step("up").hash)]
    assert confirming(records, can_go_on=False) is None


def test_nothing_confirms_what_a_program_has_read():
    assert confirming(answered(Reader())) is None
    verdict, case = judge(PLAN, ()), case_of(SINGLE, PLAN, (), judge(PLAN, ()))
    assert confirming_look(case, case.of_nothing(), (), verdict, None) is None


def test_where_one_word_stands_against_another_the_same_look_is_asked_again():
    """By that word alone a line of the first bank is told from one of the character generator."""
    records = answered(Eyes(1), names=("bank-0-data/bridged/3-4/low",))
    assert confirming(records, can_go_on=False) == "edge-down"
    records += [
        AskedAgain("edge-down"),
        Answered("edge-down", Answer(DIFFERS), PLAN.step("edge-down").hash),
    ]
    assert confirming(records, can_go_on=False) == "edge-down"


def test_no_lie_of_regions_leaves_a_common_fault_in_front_of_a_rare_one():
    """By this one the sitting ended early, with lines that fail more often than commands do."""
    rare, chance = "decoder/acts-as/clear-down", random.Random(1)
    person = Person(rare, REGIONS, one_lie(7), chance)
    assert played(person, rare, chance, is_fewest=True).is_first


SAYS_YES = {"first": {True: 0.9, False: 0.1}, "second": {True: 0.3, False: 0.7}}
"""To one look, by each of two causes."""


@pytest.mark.parametrize(
    ("lacking", "by_yes"),
    [
        pytest.param(2.0, math.log(3), id="all that a yes tells is needed"),
        pytest.param(0.5, 0.5, id="a yes tells more than is lacking"),
    ],
)
def test_what_an_answer_closes_of_a_doubt(lacking, by_yes):
    """A yes is three times as likely by the first cause, a no a seventh as likely."""
    doubt = Doubt([Candidate("first", "", 0.2)], [Candidate("second", "", 0.8)], lacking)
    assert closed(doubt, SAYS_YES) == pytest.approx(0.9 * by_yes - 0.1 * math.log(7))


def test_a_look_to_which_all_causes_say_the_same_closes_nothing():
    doubt = Doubt([Candidate("first", "", 0.2)], [Candidate("second", "", 0.8)], 2.0)
    assert closed(doubt, dict.fromkeys(SAYS_YES, SAYS_YES["first"])) == 0
    assert closed(doubt, {}) == 0
