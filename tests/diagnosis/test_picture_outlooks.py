"""What may be answered where pictures are offered."""

import pytest

from helpers.dictionaries import of_acceptance
from helpers.scripts import SINGLE, acceptance, look, plan_of
from termprobe.diagnosis.diagnose import all_accounts, case_of
from termprobe.diagnosis.dictionary import fault_dictionary
from termprobe.diagnosis.error_rates import USUAL_RATES
from termprobe.diagnosis.look_outlooks import Candidate, looks_with_outlooks
from termprobe.diagnosis.next_look import next_look
from termprobe.diagnosis.picture_outlooks import (
    MOST_PICTURES,
    NO_PICTURE,
    PASSED,
    offered_of,
    outlooks_of_pictures,
)
from termprobe.diagnosis.ranking import ranked_classes
from termprobe.diagnosis.shown import AS_WANTED, Sight
from termprobe.journal.records import DIFFERS, Answer, Answered, Sent, StepBegun
from termprobe.verdict.judge import judge

CELLS = 100
SIGHTS = {f"fault {number}": Sight(50, False, False, f"p{number}") for number in range(10)}
SHARES = {f"fault {number}": 0.1 - number / 1000 for number in range(10)}


def test_the_most_probable_pictures_are_offered_and_none_that_is_right():
    sights = {**SIGHTS, "another": SIGHTS["fault 9"], "good": AS_WANTED}
    offered = offered_of(sights, {**SHARES, "another": 0.05, "good": 0.9})
    assert len(offered) == MOST_PICTURES and "p9" in offered and "" not in offered


def test_the_answers_to_each_cause_have_all_of_the_probability():
    found = outlooks_of_pictures(
        {**SIGHTS, "good": AS_WANTED}, {**SHARES, "good": 0.1}, CELLS, USUAL_RATES
    )
    for outlook in found.values():
        assert sum(outlook.values()) == pytest.approx(1)
    assert max(found["fault 0"], key=found["fault 0"].get) == "p0"
    assert max(found["fault 9"], key=found["fault 9"].get) == NO_PICTURE
    assert max(found["good"], key=found["good"].get) == PASSED


def answered(step):
    """Return the records of a look that was none of the pictures which were offered."""
    sent = [StepBegun(step.id, step.hash), *[Sent(step.id, one.data) for one in step.groups]]
    return [*sent, Answered(step.id, Answer(DIFFERS, offered=("aa", "bb")), step.hash)]


def test_of_a_wrong_clock_no_picture_is_expected():
    """Its picture depends on where the sending pauses: it is never offered."""
    plan, known = acceptance(), of_acceptance()
    records = answered(plan.step("solid-2a"))
    verdict = judge(plan, records)
    case = case_of(SINGLE, plan, records, verdict)
    causes = [Candidate("baud/ratio/2", "baud", 0.5), Candidate("scroll/dead", "scroll", 0.5)]
    pairs = looks_with_outlooks(case, causes, verdict, known)
    outlooks = {step.id: told for step, told in pairs}
    told = outlooks["row-tags"]["baud/ratio/2"]
    number = known.looks.index("row-tags")
    assert known.faults["baud/ratio/2"].alone[number].picture not in told
    assert max(told, key=told.get) == NO_PICTURE


def test_the_next_look_is_chosen_by_seconds_or_for_the_fewest_looks():
    plan = plan_of(
        [
            look("asked", [{"text": "AB"}]),
            look("short", [{"text": "abcPX012"}]),
            look("long", [{"text": "A"}], glances=60),
        ]
    )
    records = answered(plan.steps[0])
    verdict, dictionary = judge(plan, records), fault_dictionary(SINGLE, plan)
    case = case_of(SINGLE, plan, records, verdict)
    healthy = case.of_nothing()
    found = ranked_classes(healthy, all_accounts(case, healthy, dictionary))
    assert next_look(case, found, verdict, dictionary) == "short"
    assert next_look(case, found, verdict, dictionary, is_fewest=True) == "long"
