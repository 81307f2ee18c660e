"""How far the session is."""

import dataclasses

import pytest

from helpers.bench_plan import full_plan, look
from helpers.bench_state import after_event, answers, console, course, judged, state
from termprobe.runner.due import OptionDue, StepDue
from termprobe.session import standing


def test_what_a_look_may_cover_is_counted_as_any_other_step():
    spared = {
        "lamp": look("lamp", "end", covered_by=("hello",)),
        "word": look("word", "keyboard", covered_by=("hello",)),
    }
    made = full_plan()
    steps = tuple(spared.get(step.id, step) for step in made.steps)
    with_spared = dataclasses.replace(made, steps=steps)
    made = state(plan=with_spared)
    assert made.course.progress() == (0, 0, 9)
    news = judged(answers(("hello", "differs")), "lamp", plan=with_spared)
    failed = after_event(made, news)
    assert failed.course.progress() == (2, 1, 7), (
        "the bell is blocked, lamp and word are to be asked"
    )


def test_steps_that_are_not_fitted_are_no_progress():
    made = full_plan()
    steps = tuple(
        dataclasses.replace(one, not_fitted="no keyboard") if one.stage == "keyboard" else one
        for one in made.steps
    )
    left_out = dataclasses.replace(made, steps=steps)
    found = after_event(state(plan=left_out), judged((), "hello", plan=left_out))
    assert "0 done, 0 failed, 7 left" in console(found, 120, 32)


def test_no_time_is_told_before_it_is_measured():
    assert standing.seconds_left(state(looks_s=(1.0, 2.0))) is None
    left_s = standing.seconds_left(state(looks_s=(10.0, 30.0, 20.0)))
    sending_s = sum(len(step.data) for step in full_plan().steps) * state().format.character_s
    assert left_s == pytest.approx(9 * 20.0 + sending_s)


def test_an_option_is_due_where_it_is_not_known_to_stand_so():
    step = full_plan().step("word")
    assert course().due(step) == OptionDue("duplex", "full")
    assert course(positions={"duplex": "half"}).due(step) == OptionDue("duplex", "full")
    assert course(positions={"duplex": "full"}).due(step) == StepDue()


@pytest.mark.parametrize(
    "seconds, words",
    [
        (0.2, "about 10 s"),
        (84, "about 80 s"),
        (90, "about 2 min"),
        (5399, "about 90 min"),
        (5400, "about 1.5 h"),
    ],
)
def test_a_duration_is_told_as_people_say_it(seconds, words):
    assert standing.shown_time(seconds) == words
