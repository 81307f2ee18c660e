"""What counts as explained: whatever failed is predicted, and little that passed is not."""

import dataclasses

from helpers.scripts import SINGLE, look, plan_of
from helpers.virtual_builders import Eyes, Reader, records_of
from termprobe.board.faults.catalogue import fault
from termprobe.diagnosis.causes import cause_of
from termprobe.diagnosis.diagnose import case_of
from termprobe.diagnosis.explained import accounts_for_all
from termprobe.verdict.judge import judge

PLAN = plan_of(
    [
        look(f"row-{row}", [{"command": "down", "times": row}, {"text": "HELLO"}])
        for row in range(1, 7)
    ]
)
NAME = "glyph-address/stuck/1/1"


def told(observer, changed=()):
    """Return whether the fault explains a run in which the answers `changed` are wrong."""
    records = records_of(SINGLE, PLAN, [NAME], observer)
    case = case_of(SINGLE, PLAN, records, judge(PLAN, records))
    answers = [
        dataclasses.replace(one, has_passed=one.has_passed ^ (one.step_id in changed))
        for one in case.observations
    ]
    case = dataclasses.replace(case, observations=tuple(answers))
    account = case.by_replay(cause_of(fault(SINGLE, NAME)), fault(SINGLE, NAME))
    return accounts_for_all(account, case.of_nothing(), case)


def test_all_that_is_predicted_is_explained():
    assert told(Eyes(1)) and told(Reader())


def test_eyes_may_miss_one_look_in_five_but_not_two():
    assert told(Eyes(1), {"row-2"}) and not told(Eyes(1), {"row-2", "row-3"})


def test_a_failure_that_is_not_predicted_is_not_explained():
    records = records_of(SINGLE, PLAN, [NAME], Reader())
    case = case_of(SINGLE, PLAN, records, judge(PLAN, records))
    other = fault(SINGLE, "bank-0-data/stuck/1/1")
    account = case.by_replay(cause_of(other), other)
    assert not accounts_for_all(account, case.of_nothing(), case)


def test_a_few_regions_may_be_slips_and_most_must_be_as_predicted():
    def with_regions(wrong, of):
        regions = (False,) * wrong + (True,) * (of - wrong)
        records = records_of(SINGLE, PLAN, [NAME], Eyes(1))
        case = case_of(SINGLE, PLAN, records, judge(PLAN, records))
        account = case.by_replay(cause_of(fault(SINGLE, NAME)), fault(SINGLE, NAME))
        told = account.fits["row-1"]._replace(regions=regions)
        return accounts_for_all(
            account._replace(fits={**account.fits, "row-1": told}), case.of_nothing(), case
        )

    assert with_regions(0, 10) and with_regions(2, 10) and not with_regions(3, 10)
    assert with_regions(1, 1) and not with_regions(2, 3)
