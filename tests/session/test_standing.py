"""How far the session is."""

import dataclasses

import pytest
from helpers.bench_plan import full_plan
from helpers.bench_state import after_event, answers, console, state

from termprobe.session import standing
from termprobe.session.messages import Judged
from termprobe.verdict.judge import judge


def test_what_a_look_may_settle_is_not_counted_as_left_until_that_look_fails():
    steps = [
        dataclasses.replace(step, covered_by=("hello",)) if step.id in ("lamp", "word") else step
        for step in state().plan.steps
    ]
    made = dataclasses.replace(state(), plan=dataclasses.replace(state().plan, steps=tuple(steps)))
    assert standing.progress(made) == (0, 0, 7)
    failed = after_event(made, Judged(answers(("hello", "differs")), "lamp"))
    assert standing.progress(failed) == (2, 1, 7), (
        "the bell is blocked, lamp and word are to be asked"
    )


def test_steps_that_are_not_fitted_are_no_progress():
    made = full_plan()
    steps = tuple(
        dataclasses.replace(one, not_fitted="no keyboard") if one.stage == "keyboard" else one
        for one in made.steps
    )
    left_out = dataclasses.replace(made, steps=steps)
    found = after_event(state(plan=left_out), Judged(judge(left_out, []), "hello"))
    assert "0 done, 0 failed, 7 left" in console(found, 120, 32)


def test_no_time_is_told_before_it_is_measured():
    assert standing.time_left_s(state(looks_s=(1.0, 2.0))) is None
    left_s = standing.time_left_s(state(looks_s=(10.0, 30.0, 20.0)))
    sending_s = sum(len(step.data) for step in full_plan().steps) * state().format.character_s
    assert left_s == pytest.approx(9 * 20.0 + sending_s)


def test_an_option_is_due_where_it_is_not_known_to_stand_so():
    step = full_plan().step("word")
    assert standing.settings_due(state(), step) == (("duplex", "full"),)
    assert standing.settings_due(state(options={"duplex": "half"}), step) == (("duplex", "full"),)
    assert standing.settings_due(state(options={"duplex": "full"}), step) == ()


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
