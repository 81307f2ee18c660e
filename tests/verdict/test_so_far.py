"""What is kept of records from one judging to the next gives the verdicts that all of them give."""

import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.bench import look, plan
from helpers.bench_plan import step
from termprobe.journal.asked_again import AskedAgain
from termprobe.journal.known_fault import KnownFault
from termprobe.journal.lost import LostRecords
from termprobe.journal.records import (
    AS_EXPECTED,
    DIFFERS,
    SKIPPED,
    UNSURE,
    Answer,
    Answered,
    Arrived,
    Heard,
    Resumed,
    StepBegun,
    TakenBack,
)
from termprobe.link.base import Received
from termprobe.runner.course import course_of
from termprobe.runner.trail import KeptOfRun
from termprobe.verdict.judge import judge
from termprobe.verdict.so_far import nothing_known

RAIL = step("rail", "power", "ask", stop_if="It is out of its limits")
KEY = step("press/q", "keyboard", "press")
PLAN = plan(RAIL, look("a", needs=("rail",)), look("b", covered_by=("a",)), KEY)
STEPS = (*PLAN.index, "gone")
WORDS = st.sampled_from([AS_EXPECTED, DIFFERS, UNSURE, SKIPPED])


def heard(code):
    """Return the answer to a press of which `code` came, or nothing."""
    events = (Received(1.0, code),)
    return Answer(heard=Heard(9600, 8, events * bool(code)), observer="line")


ANSWERS = st.builds(
    Answered,
    st.sampled_from(STEPS),
    st.builds(Answer, WORDS),
    st.sampled_from(["", "hash of a", "hash of rail"]),
    amends=st.booleans(),
)
PRESSES = st.builds(
    Answered,
    st.just(KEY.id),
    st.sampled_from([b"q", b"w", b""]).map(heard),
    amends=st.booleans(),
)
OTHERS = st.one_of(
    st.builds(TakenBack, st.sampled_from(STEPS)),
    st.builds(AskedAgain, st.sampled_from(STEPS)),
    st.builds(StepBegun, st.sampled_from(STEPS)),
    st.just(KnownFault("bank-1-data/stuck/3/0", explains=("a",))),
    st.builds(LostRecords, st.sampled_from([None, 1, 2])),
    st.builds(Resumed),
    st.builds(Arrived, st.none(), st.sampled_from([b"", b"q"])),
)
RECORDS = st.lists(st.one_of(ANSWERS, PRESSES, OTHERS), max_size=14)


@given(RECORDS, st.data())
def test_judging_record_by_record_gives_what_judging_all_of_them_does(records, data):
    known, kept, count = nothing_known(PLAN), KeptOfRun(PLAN), 0
    while count < len(records):
        count += data.draw(st.integers(1, 3))
        so_far = records[:count]
        assert judge(PLAN, so_far, known) == judge(PLAN, so_far)
        assert course_of(PLAN, so_far, kept) == course_of(PLAN, so_far)


def test_a_known_fault_and_lost_records_are_known_of():
    known = nothing_known(PLAN)
    assert not known.after([]).doubts.has_lost
    fault = KnownFault("x", explains=("a",))
    found = known.after([fault, LostRecords(2)])
    assert found.doubts.has_lost and found.faults == (fault,)


def calls_of(deed, *given):
    """Return how many functions are called to do it, those of the language included."""
    calls = []
    sys.setprofile(lambda frame, event, what: calls.append(event))
    try:
        deed(*given)
    finally:
        sys.setprofile(None)
    return sum(event in ("call", "c_call") for event in calls)


@pytest.mark.parametrize("code", [b"q", b""], ids=["a code", "nothing"])
@pytest.mark.parametrize("is_taken_back", [True, False])
def test_a_press_is_judged_by_as_much_work_after_many_as_after_a_few(code, is_taken_back):
    known, records, calls = nothing_known(PLAN), [], []
    for _ in range(60):
        records += [TakenBack(KEY.id)] * is_taken_back + [Answered(KEY.id, heard(code))]
        calls.append(calls_of(judge, PLAN, records, known))
    assert calls[-1] == calls[10], calls
