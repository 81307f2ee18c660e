"""The course of a run by its records, and what is sent for a step."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.bench import FakeLink, look, plan
from helpers.bench_plan import step
from termprobe.clock import CrankedClock
from termprobe.journal.records import (
    AS_EXPECTED,
    DIFFERS,
    Answer,
    Answered,
    CautionRead,
    Noted,
    OptionSet,
    Resumed,
    TakenBack,
)
from termprobe.runner.course import chain, course_of
from termprobe.runner.due import CautionDue, StepDue, switch_to
from termprobe.runner.run import Run

MAINS = "Mains are in reach."
THREE = (look("a"), look("b"), look("c"))


def said(step_id):
    return Answered(step_id, Answer(AS_EXPECTED))


def course(*steps, records=(), **fields):
    """Return the course of a run over `steps` with these records."""
    return course_of(plan(*steps), list(records), **fields)


# -- from records ----------------------------------------------------------------------------------


def test_options_stand_where_a_record_says_else_as_they_were_known():
    found = course(
        look("a"), records=[OptionSet("echo", "on")], positions={"echo": "off", "x": "y"}
    )
    assert found.positions == {"echo": "on", "x": "y"}
    later = course(look("a"), records=[OptionSet("echo", "on"), OptionSet("echo", "off")])
    assert later.positions == {"echo": "off"}


def test_cautions_are_forgotten_when_a_run_is_resumed_and_options_are_not():
    first = look("a", caution=MAINS)
    records = [CautionRead("a", MAINS), OptionSet("echo", "on"), said("a"), Resumed()]
    found = course(first, records=records)
    assert found.due(first) == CautionDue(MAINS)
    assert found.positions == {"echo": "on"} and found.trail == ("a",)
    assert course(first, records=[*records, CautionRead("a", MAINS)]).due(first) == StepDue()


def test_a_step_taken_back_leaves_the_trail_with_every_answer_to_it():
    records = [said("a"), said("b"), said("a"), said("c")]
    assert course(*THREE, records=records).trail == ("a", "b", "a", "c")
    assert course(*THREE, records=[*records, TakenBack("a")]).trail == ("b", "c")
    assert course(*THREE, records=[said("a"), TakenBack("b")]).trail == ("a",)


@given(st.lists(st.tuples(st.sampled_from("abc"), st.booleans()), max_size=9))
def test_no_step_of_the_trail_is_unanswered(events):
    records = [said(step_id) if is_said else TakenBack(step_id) for step_id, is_said in events]
    found = course(*THREE, records=records)
    answered = {step.id for step in THREE if found.word(step.id) != "unanswered"}
    assert set(found.trail) == answered


def test_records_of_steps_that_the_plan_has_not_do_not_matter():
    strange = [CautionRead("gone", MAINS), said("gone"), TakenBack("gone"), Noted("x", "gone")]
    assert course(*THREE, records=strange) == course(*THREE)


def test_what_is_noted_makes_the_course_that_was_foreseen():
    first = look("a", caution=MAINS)
    begun = course(first)
    assert course(first, records=[CautionRead("a", MAINS)]) == begun.read(first)
    assert course(first, records=[OptionSet("echo", "on")]) == begun.set("echo", "on")
    open_ = course(*THREE, left_open="ab")
    answered = course(*THREE, records=[said("a")], left_open="b")
    assert open_.answered("a", answered.verdicts) == answered
    twice = course(*THREE, records=[said("a"), said("b"), said("a")])
    back = course(*THREE, records=[said("a"), said("b"), said("a"), TakenBack("a")])
    assert twice.taken_back("a") == replace(back, verdicts=twice.verdicts)


class Memory:
    """A journal that keeps its records in memory."""

    def __init__(self):
        self.records = []

    def append(self, record):
        self.records.append(replace(record, seq=len(self.records) + 1))
        return self.records[-1]


STEPS = (
    look("a", caution=MAINS, settings=(("echo", "on"),)),
    look("b", needs=("a",), caution=MAINS),
    look("c", covered_by=("a",)),
    step("echo-on", "looks", "switch", option="echo", position="on"),
)
ACTIONS = {
    "yes": lambda run, step: run.record(step, Answer(AS_EXPECTED)),
    "no": lambda run, step: run.record(step, Answer(DIFFERS)),
    "take back": lambda run, step: run.take_back(step),
    "read": lambda run, step: run.acknowledge(step),
    "echo off": lambda run, step: run.set_option("echo", "off"),
    "note": lambda run, step: run.note("dim", step),
    "leave open": lambda run, step: run.leave_open(step),
}


RESUME = "resume"
EVENTS = st.tuples(st.sampled_from([*ACTIONS, RESUME]), st.sampled_from(STEPS))


@given(st.lists(EVENTS, max_size=20))
def test_the_course_of_the_first_records_is_the_course_that_the_run_had_then(events):
    made, clock, journal = plan(*STEPS), CrankedClock(), Memory()
    known = {"echo": "off"}

    def new_run():
        return Run(made, FakeLink(clock), journal, clock, positions=known)

    run = new_run()
    had = [(0, run.course)]
    for action, about in events:
        if action == RESUME:
            journal.append(Resumed())
            run = new_run()
        else:
            ACTIONS[action](run, about)
        had.append((len(journal.records), run.course))
    for count, then in had:
        records = journal.records[:count]
        again = course_of(made, records, positions=known, left_open=then.left_open)
        assert again == then


# -- what is sent for a step -----------------------------------------------------------------------

FIRST = look("a")
MORE = look("b", continues=True)
YET_MORE = look("c", continues=True)
FRESH = look("d")
CHAIN = plan(FIRST, MORE, YET_MORE, FRESH)


@pytest.mark.parametrize(
    "asked, on_screen, expected",
    [
        (FIRST, None, "a"),
        (FIRST, "d", "a"),
        (MORE, None, "ab"),
        (MORE, "a", "b"),
        (MORE, "b", "ab"),
        (YET_MORE, None, "abc"),
        (YET_MORE, "a", "bc"),
        (YET_MORE, "b", "c"),
        (YET_MORE, "d", "abc"),
        (FRESH, "c", "d"),
    ],
)
def test_a_step_is_sent_with_those_that_its_screen_goes_on_from(asked, on_screen, expected):
    assert "".join(step.id for step in chain(CHAIN, asked, on_screen)) == expected


def test_a_plan_may_begin_with_a_step_that_goes_on():
    assert chain(plan(MORE), MORE, None) == (MORE,)


def test_an_option_is_set_by_the_plan_s_own_step_or_by_one_made_up():
    own = step("set-echo", "start", "switch", option="echo", position="on")
    asked = look("a")
    made = plan(own, asked)
    assert switch_to(made, asked, "echo", "on") is own
    switch = switch_to(made, asked, "echo", "off")
    assert (switch.id, switch.option, switch.position) == ("echo-off", "echo", "off")
    assert (switch.stage, switch.title) == ("looks", "Set echo to off")
